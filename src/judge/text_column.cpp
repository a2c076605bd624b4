#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "chip/cautions.h"
#include "judge/health.h"

namespace rtcmend {

namespace {

/// "28h is B0, and its text shows a byte that cannot be printed".
std::string contradiction(Address at, std::uint8_t byte, char letter) {
  const std::string found = fmt::format("{} is {}", hex_prose(at), hex2(byte));
  if (letter <= 0x20 || letter >= 0x7F || letter == '.')
    return found + ", and the text shows none of the signs that can be printed";
  return fmt::format("{}, and the text shows \"{}\", which is {}", found, letter,
                     hex2(static_cast<std::uint8_t>(letter)));
}

}  // namespace

std::vector<Finding> compare_text(const Image& image, const TextColumn& text,
                                  const Addresses& hidden) {
  constexpr std::size_t most = 6;
  Addresses at;
  std::vector<std::string> parts;
  for (std::size_t i = 0; i < std::min(image.size(), text.size()); ++i) {
    const auto one = static_cast<Address>(i);
    if (!image.known(one) || !contradicts(text, i, image[one])) continue;
    at.push_back(one);
    if (std::binary_search(hidden.begin(), hidden.end(), one))
      parts.push_back(hex_prose(one) + " and its text do not agree");
    else if (parts.size() < most)
      parts.push_back(contradiction(one, image[one], text[i]));
  }
  if (at.empty()) return {};
  const std::string more =
      at.size() > parts.size() ? fmt::format("; and {} more", at.size() - parts.size()) : "";
  return {{FindingKind::text_column_differs, at,
           "The text column contradicts the digits: " + join(parts, "; ") + more + ".",
           by_hand("Compare these bytes with the source of the listing: a digit was miscopied, or "
                   "the text was changed."),
           "common practice, no source"}};
}

}  // namespace rtcmend
