#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "forms/chip_in_file.h"

namespace rtcmend {

/// The bytes as they are: a chip's, or a file that holds them among others, as chip_in() finds
/// them.
Found read_raw(std::string_view content, const std::string& where, const ReadingOptions& options);

/// All bytes of the chip. Unknown ones are refused unless `fill` stands in for them.
std::string write_raw(const Image& image, std::optional<std::uint8_t> fill);

/// The image's bytes for a form that cannot say "unknown": `fill` in their place, else an Error
/// that names them. `form` is the form's name for the message.
std::vector<std::uint8_t> filled_bytes(const Image& image, std::optional<std::uint8_t> fill,
                                       std::string_view form);

}  // namespace rtcmend
