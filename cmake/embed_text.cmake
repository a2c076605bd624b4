# Run by the build: writes OUT, a C++ source that defines `std::string_view rtcmend::FUNCTION()`,
# declared in HEADER, as the text of FILE. A long text is cut into several literals, which the
# compiler joins again.
file(READ ${FILE} content)
string(LENGTH "${content}" length)
set(pieces "    \"\"\n")  # so that an empty text is one as well
set(at 0)
while(at LESS length)
  string(SUBSTRING "${content}" ${at} 4000 piece)
  string(APPEND pieces "    R\"rtcmend_text(${piece})rtcmend_text\"\n")
  math(EXPR at "${at} + 4000")
endwhile()
file(WRITE ${OUT}
"// Made by cmake/embed_text.cmake from ${FILE}. Change that, not this one.
#include \"${HEADER}\"

namespace rtcmend {
namespace {
constexpr std::string_view text =
${pieces}    ;
}  // namespace

std::string_view ${FUNCTION}() { return text; }
}  // namespace rtcmend
")
