#include "support/invented_firmware.h"

#include <algorithm>

namespace rtcmend::test {

namespace {

using Bytes = std::vector<std::uint8_t>;

std::uint8_t as_bcd(unsigned value) {
  return static_cast<std::uint8_t>(value / 10 % 10 << 4 | value % 10);
}

void put(Bytes& bytes, const std::vector<BitAt>& bits, std::uint32_t code) {
  for (std::size_t i = 0; i < bits.size(); ++i) {
    const unsigned value = code >> (bits.size() - 1 - i) & 1U;
    const auto mask = static_cast<std::uint8_t>(1U << bits[i].bit);
    std::uint8_t& byte = bytes[bits[i].at];
    byte = static_cast<std::uint8_t>(value != 0 ? byte | mask : byte & ~mask);
  }
}

std::uint16_t add_up(const Bytes& bytes, const Guard& guard) {
  unsigned sum = guard.start;
  for (std::size_t at = guard.over.first; at <= guard.over.last; ++at) sum += bytes[at];
  return static_cast<std::uint16_t>(sum);
}

std::uint8_t exclusive_or(const Bytes& bytes, const Guard& guard) {
  unsigned all = guard.start;
  for (std::size_t at = guard.over.first; at <= guard.over.last; ++at) all ^= bytes[at];
  return static_cast<std::uint8_t>(all);
}

std::uint16_t divide(const Bytes& bytes, const Guard& guard) {
  unsigned rest = guard.start;
  for (std::size_t at = guard.over.first; at <= guard.over.last; ++at) {
    rest ^= static_cast<unsigned>(bytes[at]) << 8;
    for (int i = 0; i < 8; ++i) rest = (rest & 0x8000U) != 0 ? rest << 1 ^ guard.poly : rest << 1;
    rest &= 0xFFFFU;
  }
  return static_cast<std::uint16_t>(rest);
}

void store_pair(Bytes& bytes, Address at, unsigned value) {
  bytes[at] = static_cast<std::uint8_t>(value >> 8 & 0xFFU);
  bytes[at + 1U] = static_cast<std::uint8_t>(value & 0xFFU);
}

void protect(Bytes& bytes, const Guard& guard) {
  switch (guard.kind) {
    case Guard::Kind::sum_16:
      return store_pair(bytes, guard.at, add_up(bytes, guard));
    case Guard::Kind::negated_sum_16:
      return store_pair(bytes, guard.at, 0U - add_up(bytes, guard));
    case Guard::Kind::crc_16:
      return store_pair(bytes, guard.at, divide(bytes, guard));
    case Guard::Kind::xor_8:
      bytes[guard.at] = exclusive_or(bytes, guard);
      return;
    case Guard::Kind::balance_8:
      bytes[guard.at] = static_cast<std::uint8_t>(0U - add_up(bytes, guard));
      return;
  }
}

}  // namespace

InventedMachine::InventedMachine(InventedFirmware firmware, std::uint32_t start)
    : firmware_(std::move(firmware)), dice_(start) {
  reset();
  for (std::size_t i = 0; i < firmware_.counters.size(); ++i)
    starts_.push_back(static_cast<std::uint16_t>(dice_.below(0x10000)));
}

Image InventedMachine::start_and_dump() {
  Bytes bytes = firmware_.blank;
  std::vector<std::size_t> stored = chosen_;
  for (const Drag& drag : firmware_.drags)
    if (chosen_[drag.knob] == drag.value) stored[drag.moves] = drag.to;
  for (std::size_t i = 0; i < firmware_.knobs.size(); ++i) {
    const Knob& knob = firmware_.knobs[i];
    put(bytes, knob.bits, knob.codes[stored[i]]);
    put(bytes, knob.second_copy, knob.codes[stored[i]]);
  }
  for (const Tally& tally : firmware_.tallies) {
    const auto count = std::ranges::count_if(tally.knobs, [&](std::size_t knob) {
      return firmware_.knobs[knob].codes[stored[knob]] != 0;
    });
    put(bytes, tally.bits, static_cast<std::uint32_t>(count));
  }
  for (std::size_t i = 0; i < starts_.size(); ++i) {
    ++starts_[i];
    bytes[firmware_.counters[i]] = static_cast<std::uint8_t>(starts_[i] & 0xFF);
    bytes[firmware_.counters[i] + 1U] = static_cast<std::uint8_t>(starts_[i] >> 8);
  }
  for (const Address at : firmware_.restless) bytes[at] = dice_.byte();

  minutes_ += 2 + dice_.below(5);
  bytes[0x00] = as_bcd(dice_.below(60));
  bytes[0x02] = as_bcd(minutes_ % 60);
  bytes[0x04] = as_bcd(9 + minutes_ / 60 % 12);
  // Thursday 15 May 1997, a running 24-hour clock in BCD.
  const std::uint8_t date_and_registers[] = {0x05, 0x15, 0x05, 0x97, 0x26, 0x02, 0x00, 0x80};
  std::ranges::copy(date_and_registers, bytes.begin() + 0x06);
  protect(bytes, firmware_.guard);
  return Image(bytes);
}

}  // namespace rtcmend::test
