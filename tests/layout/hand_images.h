#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/image.h"
#include "base/text.h"
#include "layout/codec.h"
#include "layout/library.h"

namespace rtcmend {

/// Typed-in bytes from 0Eh up, hex, blanks between, behind the clock of all these images:
/// 2031-05-14 09:30:00, a Wednesday. The rest of the chip is zeros.
inline Image typed_in(std::size_t size, std::string_view ram) {
  std::vector<std::uint8_t> bytes{0x00, 0x00, 0x30, 0x00, 0x09, 0x00, 0x04,
                                  0x14, 0x05, 0x31, 0x26, 0x02, 0x00, 0x80};
  for (const std::string& digits : split(ram, ' '))
    if (!digits.empty())
      bytes.push_back(static_cast<std::uint8_t>(parse_hex(digits, 0xFF).value()));
  bytes.resize(size, 0x00);
  return Image(bytes);
}

/// Ids of the checks that hold.
inline std::vector<std::string> holding(const Layout& layout, const Image& image) {
  std::vector<std::string> ids;
  for (const Check& check : layout.checks) {
    const CheckResult result = evaluate(check, image);
    if (result.counts && result.ok()) ids.push_back(check.id);
  }
  return ids;
}

/// The image with its stored check bytes wiped and computed anew.
inline Image resealed(const Layout& layout, Image image) {
  for (const Check& check : layout.checks)
    for (const Address at : stored_addresses(check)) image.set(at, 0xA5);
  for (const std::size_t index : layout.sealing) seal_one(layout.checks[index], image);
  return image;
}

/// What a field says, as text.
inline std::string says(const Layout& layout, const std::string& field, const Image& image) {
  return read_field(layout.need_field(field), image).text;
}

}  // namespace rtcmend
