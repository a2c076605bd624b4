#include "render/check_words.h"

#include <fmt/format.h>

#include "base/text.h"

namespace rtcmend {

std::string check_digits(const Check& check, std::uint16_t value) {
  return fmt::format("{:0{}X}", value, width(check) / 4);
}

std::string covered_text(const Check& check) {
  std::vector<std::string> parts;
  for (const Covered& covered : check.over) parts.push_back(to_text(covered.range));
  return join(parts, ", ");
}

}  // namespace rtcmend
