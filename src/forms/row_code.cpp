#include "forms/row_code.h"

#include <span>

#include "check/crc.h"

namespace rtcmend {

std::uint8_t row_code(const Row& row) {
  std::array<std::uint8_t, bytes_a_row + 1> covered{row.address};
  std::size_t count = 1;
  for (const DumpByte& byte : row.bytes)
    if (byte) covered[count++] = *byte;
  const std::span<const std::uint8_t> bytes(covered.data(), count);
  return static_cast<std::uint8_t>(crc_bitwise(crc_models::smbus, bytes));
}

bool is_row_address(std::uint8_t address) {
  return address < Image::large_size && address % bytes_a_row == 0;
}

bool fits_code(const Row& row) {
  return is_row_address(row.address) && row_code(row) == row.code;
}

}  // namespace rtcmend
