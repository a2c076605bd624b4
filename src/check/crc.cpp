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

// Eight steps of the division, highest bit leaving first.
std::uint16_t divide_up(const CrcModel& model, std::uint16_t value) {
  const unsigned top = 1U << (model.width - 1);
  unsigned rest = value;
  for (int step = 0; step < 8; ++step)
    rest = (rest & top) != 0 ? (rest << 1) ^ model.poly : rest << 1;
  return static_cast<std::uint16_t>(rest & all_ones(model.width));
}

// The same in a mirrored register, lowest bit leaving first.
std::uint16_t divide_down(std::uint16_t mirrored_poly, std::uint16_t value) {
  unsigned rest = value;
  for (int step = 0; step < 8; ++step)
    rest = (rest & 1U) != 0 ? (rest >> 1) ^ mirrored_poly : rest >> 1;
  return static_cast<std::uint16_t>(rest);
}

std::uint16_t run_up(const CrcModel& model, const std::array<std::uint16_t, 256>& table,
                     std::span<const std::uint8_t> bytes) {
  unsigned rest = model.init;
  for (const std::uint8_t byte : bytes)
    rest = (rest << 8 & all_ones(model.width)) ^ table[(rest >> (model.width - 8) ^ byte) & 0xFFU];
  return static_cast<std::uint16_t>(rest);
}

std::uint16_t run_down(const CrcModel& model, const std::array<std::uint16_t, 256>& table,
                       std::span<const std::uint8_t> bytes) {
  unsigned rest = mirrored(model.init, model.width);
  for (const std::uint8_t byte : bytes) rest = rest >> 8 ^ table[(rest ^ byte) & 0xFFU];
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

Crc::Crc(const CrcModel& model) : model_(model) {
  const std::uint16_t mirrored_poly = mirrored(model.poly, model.width);
  for (unsigned i = 0; i < table_.size(); ++i)
    table_[i] = model.refin ? divide_down(mirrored_poly, static_cast<std::uint16_t>(i))
                            : divide_up(model, static_cast<std::uint16_t>(i << (model.width - 8)));
}

// A model with refin runs in a mirrored register, which spares mirroring every byte. It then stands
// the way that refout asks for; without refin it does not.
std::uint16_t Crc::operator()(std::span<const std::uint8_t> bytes) const {
  std::uint16_t rest =
      model_.refin ? run_down(model_, table_, bytes) : run_up(model_, table_, bytes);
  if (model_.refin != model_.refout) rest = mirrored(rest, model_.width);
  return rest ^ model_.xorout;
}

}  // namespace rtcmend
