#include "render/audit_lines.h"

#include <algorithm>
#include <array>
#include <charconv>

namespace rtcmend {

bool is_plain(std::string_view text) {
  return std::all_of(text.begin(), text.end(),
                     [](char c) { return c >= ' ' && c <= '~' && c != '"' && c != '\\'; });
}

void add_digits(std::size_t number, std::string& line) {
  std::array<char, 20> digits{};  // as many as 64 bits take
  const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), number).ptr;
  line.append(digits.data(), end);
}

}  // namespace rtcmend
