#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

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

/// A CRC with its tables built once: it takes eight bytes at a step, which pays from a few dozen
/// bytes a CRC and many CRCs.
class Crc {
 public:
  explicit Crc(const CrcModel& model);
  std::uint16_t operator()(std::span<const std::uint8_t> bytes) const;

 private:
  static constexpr std::size_t stride = 8;

  std::uint16_t run_up(std::span<const std::uint8_t> bytes) const;
  std::uint16_t run_down(std::span<const std::uint8_t> bytes) const;
  std::uint16_t after_stride(const std::uint8_t* bytes, unsigned first, unsigned second) const;

  CrcModel model_;
  std::uint16_t start_;
  /// tables_[n][b]: the register after byte b and n zero bytes, from zero.
  std::array<std::array<std::uint16_t, 256>, stride> tables_{};
};

/// One bit of a message.
struct BitPlace {
  std::size_t byte;
  unsigned bit;
};

/// Which single bits of a message of `count` bytes change its CRC by just `difference` (xored) when
/// they are flipped. Holds for every message, because a CRC is linear.
std::vector<BitPlace> crc_bit_places(const CrcModel& model, std::size_t count,
                                     std::uint16_t difference);

}  // namespace rtcmend
