# Run by the build: writes OUT, a C++ source that defines rtcmend::assembled_programs() from the flat
# binaries FILES.
set(arrays "")
set(table "")
foreach(file IN LISTS FILES)
  get_filename_component(name ${file} NAME_WE)
  file(READ ${file} digits HEX)
  string(REGEX REPLACE "([0-9a-f][0-9a-f])" "0x\\1," bytes "${digits}")
  string(REGEX REPLACE "((0x..,)(0x..,)(0x..,)(0x..,)(0x..,)(0x..,)(0x..,)(0x..,))" "\\1\n    "
         bytes "${bytes}")
  string(APPEND arrays "constexpr std::uint8_t ${name}[] = {\n    ${bytes}};\n")
  string(APPEND table "    {\"${name}\", ${name}},\n")
endforeach()
file(WRITE ${OUT}
"// Made by cmake/assembled.cmake from the assembly sources. Change those, not this one.
#include \"deliver/assembled.h\"

namespace rtcmend {
namespace {
${arrays}
constexpr AssembledProgram programs[] = {
${table}};
}  // namespace

std::span<const AssembledProgram> assembled_programs() { return programs; }
}  // namespace rtcmend
")
