#include "forms/ascii_column.h"

#include "base/text_column.h"

namespace rtcmend {

namespace {

bool is_continuation(char c) {
  return (static_cast<unsigned char>(c) & 0xC0) == 0x80;
}

/// Bytes of the UTF-8 character at the start of the text; 1 when it is none, as in the code pages
/// of DOS.
std::size_t character_length(std::string_view text) {
  const auto lead = static_cast<unsigned char>(text[0]);
  const std::size_t length = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : lead >= 0xC2 ? 2 : 1;
  for (std::size_t i = 1; i < length; ++i)
    if (i >= text.size() || !is_continuation(text[i])) return 1;
  return length;
}

bool fits(DumpByte byte, char c) {
  if (!byte) return c == '.' || c == '?' || c == ' ';
  return may_show(*byte, c);
}

}  // namespace

AsciiFit ascii_fit(const std::vector<DumpByte>& bytes, std::string_view text) {
  constexpr std::size_t longest_character = 4;
  if (bytes.empty() || text.size() > bytes.size() * longest_character) return AsciiFit::none;
  std::size_t fitting = 0;
  for (const DumpByte byte : bytes) {
    const bool trimmed = text.empty();
    if (trimmed ? byte == 0x20 : fits(byte, text.front())) ++fitting;
    if (!trimmed) text.remove_prefix(character_length(text));
  }
  if (!text.empty()) return AsciiFit::none;
  if (fitting == bytes.size()) return AsciiFit::exact;
  return fitting * 2 >= bytes.size() ? AsciiFit::similar : AsciiFit::none;
}

std::string letters_beside(const std::vector<DumpByte>& bytes, std::string_view text) {
  std::string letters(bytes.size(), '\0');
  for (std::size_t i = 0; i < bytes.size() && !text.empty(); ++i) {
    letters[i] = text.front();
    text.remove_prefix(character_length(text));
  }
  return letters;
}

}  // namespace rtcmend
