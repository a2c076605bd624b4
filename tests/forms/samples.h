#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "base/error.h"
#include "base/image.h"
#include "forms/form.h"

namespace rtcmend {

/// The image that most tests of this folder write down in one form or another; invented, with some
/// printable bytes and a row of zeros.
inline constexpr std::array<std::uint8_t, 64> sample_bytes{
    0x21, 0x00, 0x58, 0x00, 0x05, 0x00, 0x05, 0x15, 0x02, 0x94, 0x26, 0x02, 0x50, 0x80, 0x00, 0x00,
    0x40, 0x00, 0xF0, 0x00, 0x41, 0x80, 0x02, 0x80, 0x01, 0x27, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00,
    0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x02, 0x9B,
    0x80, 0x01, 0x19, 0x00, 0x41, 0x42, 0x20, 0x43, 0x20, 0x7C, 0x3E, 0x23, 0x3D, 0x2E, 0x2D, 0x7F};

inline Image sample_64() {
  return Image(sample_bytes);
}

/// The same, and 64 zero bytes behind.
inline Image sample_128() {
  std::array<std::uint8_t, 128> bytes{};
  std::copy(sample_bytes.begin(), sample_bytes.end(), bytes.begin());
  return Image(bytes);
}

/// The image without its clock bytes and registers, 00h-0Dh.
inline Image ram_part_of(Image image) {
  for (Address at = 0; at < Image::ram_start; ++at) image.forget(at);
  return image;
}

/// The error that reading gives, as "WHERE: WHAT"; empty when it is read.
inline std::string refusal(std::string_view content, std::optional<Form> form = std::nullopt) {
  try {
    read_dump(content, "dump", form);
  } catch (const Error& error) {
    return error.what();
  }
  return {};
}

/// What that error says to try.
inline std::string remedy(std::string_view content, std::optional<Form> form = std::nullopt) {
  try {
    read_dump(content, "dump", form);
  } catch (const Error& error) {
    return error.remedy();
  }
  return {};
}

}  // namespace rtcmend
