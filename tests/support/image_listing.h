#pragma once

#include <fmt/format.h>
#include <string>

#include "base/image.h"

namespace rtcmend::test {

/// The bytes as rows of hex, as a person would paste them; unknown ones as "??".
inline std::string listing(const Image& image) {
  std::string text;
  for (std::size_t i = 0; i < image.size(); ++i) {
    if (i % 16 == 0) text += fmt::format("{:02X}:", i);
    const auto byte = image.at(static_cast<Address>(i));
    text += byte ? fmt::format(" {:02X}", *byte) : std::string(" ??");
    if (i % 16 == 15) text += '\n';
  }
  return text;
}

}  // namespace rtcmend::test
