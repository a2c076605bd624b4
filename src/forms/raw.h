#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/image.h"

namespace rtcmend {

/// The bytes as they are: 64 or 128, or 50 or 114 for the RAM part alone. Another size is refused.
Image read_raw(std::string_view content, const std::string& where);

/// All bytes of the chip. Unknown ones are refused unless `fill` stands in for them.
std::string write_raw(const Image& image, std::optional<std::uint8_t> fill);

/// The image's bytes for a form that cannot say "unknown": `fill` in their place, else an Error
/// that names them. `form` is the form's name for the message.
std::vector<std::uint8_t> filled_bytes(const Image& image, std::optional<std::uint8_t> fill,
                                       std::string_view form);

}  // namespace rtcmend
