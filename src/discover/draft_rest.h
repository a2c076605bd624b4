#pragma once

#include <nlohmann/json.hpp>

#include "discover/trace.h"

namespace rtcmend {

/// What a session saw and no setting moved, as fields of a layout that are shown and never set:
/// bytes and bits that stayed the same in every dump and are not 0, so that composing an image
/// starts from them. `taken`: by address, the bits that other fields or checks have.
nlohmann::ordered_json fields_at_rest(const Trace& trace, const std::vector<std::uint8_t>& taken);

/// Bytes in hex digits, as a layout writes the default of a field of bytes.
std::string hex_at(const Image& image, const Range& range);

}  // namespace rtcmend
