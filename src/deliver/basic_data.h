#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>

#include "base/image.h"

namespace rtcmend {

/// A DATA line for BASIC: address, bytes and a CRC-8/SMBUS over both, in hex without blanks;
/// unknown bytes are "--" and left out of the CRC, as in the rows form.
std::string data_line(int number, Address first,
                      std::span<const std::optional<std::uint8_t>> bytes);

}  // namespace rtcmend
