// Run by the build: proves every built-in layout against the schema and its meaning, and writes to
// standard output the C++ source that defines packed_layouts().

#include <cstdio>
#include <exception>
#include <fmt/format.h>
#include <string>
#include <string_view>

#include "layout/library.h"
#include "layout/load.h"
#include "layout/packed.h"

namespace rtcmend {

// The library asks for packed layouts first; here there are none yet, so it reads the JSON text.
std::span<const PackedLayout> packed_layouts() {
  return {};
}

namespace {

/// Lines of a string literal: three octal digits a byte, so that no byte can run into the next.
std::string literal(std::string_view bytes) {
  constexpr std::size_t bytes_a_line = 24;
  std::string text;
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    if (i % bytes_a_line == 0) text += i == 0 ? "    \"" : "\"\n    \"";
    text += fmt::format("\\{:03o}", static_cast<unsigned char>(bytes[i]));
  }
  return text + "\"";
}

std::string entry(const std::string& id) {
  const std::string bytes = pack(load_layout(built_in_text(id), id, embedded_text));
  return fmt::format("    {{\"{}\", std::string_view(\n{}, {})}},\n", id, literal(bytes),
                     bytes.size());
}

std::string source() {
  std::string table;
  for (const std::string& id : built_in_layouts()) table += entry(id);
  return fmt::format(
      "// Made by cmake/pack_layouts.cpp from layouts/. Change those files, not this one.\n"
      "#include \"layout/packed.h\"\n\nnamespace rtcmend {{\nnamespace {{\n"
      "constexpr PackedLayout layouts[] = {{\n{}}};\n}}  // namespace\n\n"
      "std::span<const PackedLayout> packed_layouts() {{ return layouts; }}\n"
      "}}  // namespace rtcmend\n",
      table);
}

}  // namespace
}  // namespace rtcmend

int main() {
  try {
    const std::string text = rtcmend::source();
    return std::fwrite(text.data(), 1, text.size(), stdout) == text.size() ? 0 : 1;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "pack_layouts: %s\n", error.what());
    return 1;
  }
}
