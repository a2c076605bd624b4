#include "deliver/basic_data.h"

#include <fmt/format.h>
#include <vector>

#include "base/text.h"
#include "check/crc.h"

namespace rtcmend {

std::string data_line(int number, Address first,
                      std::span<const std::optional<std::uint8_t>> bytes) {
  std::vector<std::uint8_t> covered{first};
  std::string digits = hex2(first);
  for (const auto& byte : bytes) {
    digits += byte ? hex2(*byte) : "--";
    if (byte) covered.push_back(*byte);
  }
  const auto crc = static_cast<std::uint8_t>(Crc(crc_models::smbus)(covered));
  return fmt::format("{} DATA {}{}\n", number, digits, hex2(crc));
}

}  // namespace rtcmend
