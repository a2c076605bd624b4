#include "terminal/columns.h"

#include <fmt/format.h>

#include "base/text.h"

namespace rtcmend {

std::string hanging(std::string_view text, std::size_t column) {
  std::string result;
  for (const char c : fold(printable(text), page_width - column, 0)) {
    result += c;
    if (c == '\n') result.append(column, ' ');
  }
  return result;
}

std::string dotted(std::string_view label, std::size_t width) {
  if (label.size() + 2 > width) return std::string(label);
  return fmt::format("{} {:.<{}}", label, "", width - label.size() - 1);
}

std::string narrow(const Addresses& addresses) {
  std::vector<std::string> parts;
  for (const Range& range : to_ranges(addresses)) parts.push_back(to_text(range));
  return join(parts, " ");
}

}  // namespace rtcmend
