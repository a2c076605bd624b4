#include "check/crc.h"

namespace rtcmend {

namespace {

// The lowest `width` bits in the other direction.
std::uint16_t mirrored(std::uint16_t value, unsigned width) {
  unsigned result = 0;
  for (unsigned i = 0; i < width; ++i)
    if ((value >> i & 1U) != 0) result |= 1U << (width - 1 - i);
  return static_cast<std::uint16_t>(result);
}

std::uint16_t all_ones(unsigned width) {
  return static_cast<std::uint16_t>((1U << width) - 1U);
}

unsigned highest_bit(unsigned width) {
  return width == 8 ? 0x80U : 0x8000U;
}

// Eight steps of the division, highest bit leaving first.
std::uint16_t divide_up(const CrcModel& model, std::uint16_t value) {
  const unsigned top = highest_bit(model.width);
  unsigned rest = value;
  for (int step = 0; step < 8; ++step)
    rest = (rest & top) != 0 ? (rest << 1) ^ model.poly : rest << 1;
  return static_cast<std::uint16_t>(rest & all_ones(model.width));
}

// One of these steps.
std::uint16_t divide_step(const CrcModel& model, std::uint16_t value) {
  const bool leaves = (value & highest_bit(model.width)) != 0;
  const unsigned rest = leaves ? (unsigned{value} << 1) ^ model.poly : unsigned{value} << 1;
  return static_cast<std::uint16_t>(rest & all_ones(model.width));
}

// The same in a mirrored register, lowest bit leaving first.
std::uint16_t divide_down(std::uint16_t mirrored_poly, std::uint16_t value) {
  unsigned rest = value;
  for (int step = 0; step < 8; ++step)
    rest = (rest & 1U) != 0 ? (rest >> 1) ^ mirrored_poly : rest >> 1;
  return static_cast<std::uint16_t>(rest);
}

}  // namespace

std::uint16_t crc_bitwise(const CrcModel& model, std::span<const std::uint8_t> bytes) {
  std::uint16_t rest = model.init;
  for (const std::uint8_t byte : bytes) {
    const unsigned next = model.refin ? mirrored(byte, 8) : byte;
    rest = divide_up(model, static_cast<std::uint16_t>(rest ^ next << (model.width - 8)));
  }
  if (model.refout) rest = mirrored(rest, model.width);
  return rest ^ model.xorout;
}

Crc::Crc(const CrcModel& model)
    : model_(model), start_(model.refin ? mirrored(model.init, model.width) : model.init) {
  const std::uint16_t mirrored_poly = mirrored(model.poly, model.width);
  const auto behind_zero_byte = [&](std::uint16_t rest) {
    return model.refin ? divide_down(mirrored_poly, rest) : divide_up(model, rest);
  };
  for (unsigned i = 0; i < 256; ++i) {
    auto rest = static_cast<std::uint16_t>(model.refin ? i : i << (model.width - 8));
    for (auto& table : tables_) rest = table[i] = behind_zero_byte(rest);
  }
}

// Each of the eight bytes acts on the register by itself; the register's own bytes are added to the
// first two. (An 8-bit register has one byte, and `second` is then just the message's.)
std::uint16_t Crc::after_stride(const std::uint8_t* bytes, unsigned first, unsigned second) const {
  return static_cast<std::uint16_t>(
      tables_[7][first] ^ tables_[6][second] ^ tables_[5][bytes[2]] ^ tables_[4][bytes[3]] ^
      tables_[3][bytes[4]] ^ tables_[2][bytes[5]] ^ tables_[1][bytes[6]] ^ tables_[0][bytes[7]]);
}

std::uint16_t Crc::run_up(std::span<const std::uint8_t> bytes) const {
  const bool wide = model_.width == 16;
  unsigned rest = start_;
  for (; bytes.size() >= stride; bytes = bytes.subspan(stride))
    rest = wide ? after_stride(bytes.data(), bytes[0] ^ rest >> 8, bytes[1] ^ (rest & 0xFFU))
                : after_stride(bytes.data(), bytes[0] ^ rest, bytes[1]);
  for (const std::uint8_t byte : bytes)
    rest = wide ? (rest << 8 & 0xFFFFU) ^ tables_[0][rest >> 8 ^ byte] : tables_[0][rest ^ byte];
  return static_cast<std::uint16_t>(rest);
}

std::uint16_t Crc::run_down(std::span<const std::uint8_t> bytes) const {
  unsigned rest = start_;  // an 8-bit register has nothing in its upper byte
  for (; bytes.size() >= stride; bytes = bytes.subspan(stride))
    rest = after_stride(bytes.data(), bytes[0] ^ (rest & 0xFFU), bytes[1] ^ rest >> 8);
  for (const std::uint8_t byte : bytes) rest = rest >> 8 ^ tables_[0][(rest ^ byte) & 0xFFU];
  return static_cast<std::uint16_t>(rest);
}

// A model with refin runs in a mirrored register, which spares mirroring every byte. It then stands
// the way that refout asks for; without refin it does not.
std::uint16_t Crc::operator()(std::span<const std::uint8_t> bytes) const {
  std::uint16_t rest = model_.refin ? run_down(bytes) : run_up(bytes);
  if (model_.refin != model_.refout) rest = mirrored(rest, model_.width);
  return rest ^ model_.xorout;
}

std::vector<BitPlace> crc_bit_places(const CrcModel& model, std::size_t count,
                                     std::uint16_t difference) {
  // Into the register as it stands before the final mirroring; init and xorout cancel out.
  const std::uint16_t wanted = model.refout ? mirrored(difference, model.width) : difference;
  std::vector<BitPlace> places;
  // A bit one place further up makes the difference of the one below, divided one step on; so does
  // the lowest one of a byte after the highest one of the byte behind it.
  std::uint16_t rest = divide_up(model, static_cast<std::uint16_t>((1U << model.width) >> 8));
  for (std::size_t byte = count; byte-- > 0;)
    for (unsigned enters_as = 0; enters_as < 8; ++enters_as) {
      if (rest == wanted) places.push_back({byte, model.refin ? 7 - enters_as : enters_as});
      rest = divide_step(model, rest);
    }
  return places;
}

}  // namespace rtcmend
