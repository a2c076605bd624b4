#pragma once

#include <array>
#include <cstdint>
#include <span>

namespace rtcmend {

/// The six parameters that fix a CRC (Cook, "Catalogue of parametrised CRC algorithms").
struct CrcModel {
  unsigned width = 16;       ///< 8 or 16
  std::uint16_t poly = 0;    ///< without the top bit
  std::uint16_t init = 0;    ///< start value of the register
  bool refin = false;        ///< each byte goes in lowest bit first
  bool refout = false;       ///< the register is mirrored at the end
  std::uint16_t xorout = 0;  ///< xored to the result

  friend bool operator==(const CrcModel&, const CrcModel&) = default;
};

namespace crc_models {
inline constexpr CrcModel ibm_3740{16, 0x1021, 0xFFFF, false, false, 0x0000};
inline constexpr CrcModel smbus{8, 0x07, 0x00, false, false, 0x00};
}  // namespace crc_models

/// One bit at a time, straight from the definition: the oracle of the fast one.
std::uint16_t crc_bitwise(const CrcModel& model, std::span<const std::uint8_t> bytes);

/// A CRC with its table of 256 entries built once.
class Crc {
 public:
  explicit Crc(const CrcModel& model);
  std::uint16_t operator()(std::span<const std::uint8_t> bytes) const;

 private:
  CrcModel model_;
  std::array<std::uint16_t, 256> table_{};
};

}  // namespace rtcmend
