#pragma once

#include <array>
#include <cstdint>

#include "base/image.h"
#include "forms/row_text.h"
#include "forms/sizes.h"

namespace rtcmend {

/// One row of the rows form, as it was written down.
struct Row {
  std::uint8_t address = 0;  ///< of the first byte; 00h, 10h ... 70h when it is right
  std::array<DumpByte, bytes_a_row> bytes{};
  std::uint8_t code = 0;

  friend bool operator==(const Row&, const Row&) = default;
};

/// CRC-8/SMBUS over the address byte and the row's bytes; unknown bytes are left out.
std::uint8_t row_code(const Row& row);

/// True when the address is one that a row of a chip can have.
bool is_row_address(std::uint8_t address);

/// True when address, bytes and code go together.
bool fits_code(const Row& row);

}  // namespace rtcmend
