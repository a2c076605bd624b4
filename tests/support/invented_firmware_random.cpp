#include <algorithm>
#include <fmt/format.h>

#include "support/invented_firmware.h"

namespace rtcmend::test {

namespace {

// Hands out free bits; whole bytes go to the check and to what changes at each start.
class Ground {
 public:
  explicit Ground(std::size_t size) : taken_(size, 0) {
    for (std::size_t at = 0; at < 0x10; ++at) taken_[at] = 0xFF;
  }
  bool free(Address at, std::uint8_t mask) const {
    return at < taken_.size() && (taken_[at] & mask) == 0;
  }
  void take(Address at, std::uint8_t mask) {
    taken_[at] = static_cast<std::uint8_t>(taken_[at] | mask);
  }

  Address take_bytes(Dice& dice, unsigned count) {
    for (;;) {
      const auto at = static_cast<Address>(dice.below(static_cast<std::uint32_t>(taken_.size())));
      bool all = true;
      for (unsigned i = 0; i < count; ++i) all = all && free(static_cast<Address>(at + i), 0xFF);
      if (!all) continue;
      for (unsigned i = 0; i < count; ++i) take(static_cast<Address>(at + i), 0xFF);
      return at;
    }
  }

  // Neighbouring bits of one byte, most significant first.
  std::vector<BitAt> take_bits(Dice& dice, unsigned count) {
    for (;;) {
      const auto at = static_cast<Address>(dice.below(static_cast<std::uint32_t>(taken_.size())));
      const auto low = static_cast<std::uint8_t>(dice.below(9 - count));
      const auto mask = static_cast<std::uint8_t>(((1U << count) - 1U) << low);
      if (!free(at, mask)) continue;
      take(at, mask);
      std::vector<BitAt> bits;
      for (unsigned i = count; i-- > 0;) bits.push_back({at, static_cast<std::uint8_t>(low + i)});
      return bits;
    }
  }

 private:
  std::vector<std::uint8_t> taken_;  // by address: bits in use
};

std::vector<BitAt> bits_of_pair(Address at, bool low_first) {
  std::vector<BitAt> bits;
  for (const unsigned byte : {low_first ? 1U : 0U, low_first ? 0U : 1U})
    for (unsigned i = 8; i-- > 0;)
      bits.push_back({static_cast<Address>(at + byte), static_cast<std::uint8_t>(i)});
  return bits;
}

// Names for codes in any order, so that the codes say nothing.
Knob invent_choice(Dice& dice, Ground& ground, const std::string& name) {
  const unsigned width = 1 + dice.below(3);
  const unsigned values = std::max(2U, std::min(1U << width, 2 + dice.below(4)));
  Knob knob{name, {}, {}, {}, {}};
  while (knob.codes.size() < values) {
    const std::uint32_t code = dice.below(1U << width);
    if (std::ranges::find(knob.codes, code) != knob.codes.end()) continue;
    knob.codes.push_back(code);
    knob.values.push_back(fmt::format("choice {}", static_cast<char>('A' + knob.values.size())));
  }
  if (width > 1 && dice.below(3) == 0) {  // a setting that outgrew its byte
    knob.bits = ground.take_bits(dice, 1);
    const auto rest = ground.take_bits(dice, width - 1);
    knob.bits.insert(knob.bits.end(), rest.begin(), rest.end());
  } else {
    knob.bits = ground.take_bits(dice, width);
  }
  return knob;
}

Knob invent_switch(Dice& dice, Ground& ground, const std::string& name) {
  const std::uint32_t off = dice.below(2);
  return {name, {"off", "on"}, {off, 1 - off}, ground.take_bits(dice, 1), {}};
}

// Every bit is 0 in one value and 1 in another, as the protocol asks for.
Knob invent_number(Dice& dice, Ground& ground, const std::string& name) {
  const bool wide = dice.coin();
  Knob knob{name, {}, {}, {}, {}};
  const std::uint32_t most = wide ? 0xFFFF : 0xFF;
  knob.codes = {1 + dice.below(most - 1), 0, most, 1 + dice.below(most - 1)};
  if (knob.codes[3] == knob.codes[0]) knob.codes.pop_back();
  const std::uint32_t scale = dice.below(3) == 0 ? 64 : 1;
  for (const std::uint32_t code : knob.codes)
    knob.values.push_back(fmt::format("{}", code * scale));
  knob.bits =
      wide ? bits_of_pair(ground.take_bytes(dice, 2), dice.coin()) : ground.take_bits(dice, 8);
  if (wide && dice.coin()) {
    const bool low_first = knob.bits.front().at > knob.bits.back().at;
    knob.second_copy = bits_of_pair(ground.take_bytes(dice, 2), low_first);
  }
  return knob;
}

Knob invent_decimal(Dice& dice, Ground& ground, const std::string& name) {
  return {name, {"25", "0", "99", "66"}, {0x25, 0x00, 0x99, 0x66}, ground.take_bits(dice, 8), {}};
}

Knob invent_knob(Dice& dice, Ground& ground, const std::string& name) {
  switch (dice.below(6)) {
    case 0:
      return invent_switch(dice, ground, name);
    case 1:
      return invent_number(dice, ground, name);
    case 2:
      return invent_decimal(dice, ground, name);
    default:
      return invent_choice(dice, ground, name);
  }
}

Guard invent_guard(Dice& dice, Ground& ground, std::size_t size) {
  constexpr Guard::Kind kinds[] = {Guard::Kind::sum_16, Guard::Kind::negated_sum_16,
                                   Guard::Kind::xor_8, Guard::Kind::balance_8, Guard::Kind::crc_16};
  Guard guard;
  guard.kind = kinds[dice.below(5)];
  guard.start = dice.coin() ? std::uint16_t{0} : std::uint16_t{0xFF};
  guard.poly = dice.coin() ? std::uint16_t{0x1021} : std::uint16_t{0x8005};
  const auto end = static_cast<std::uint32_t>(size);
  guard.over = {static_cast<Address>(0x10 + dice.below(4)),
                static_cast<Address>(end - 8 - dice.below(8))};
  guard.at = static_cast<Address>(guard.over.last + 1 + dice.below(4));
  ground.take(guard.at, 0xFF);
  ground.take(static_cast<Address>(guard.at + 1), 0xFF);
  return guard;
}

void invent_drag(Dice& dice, InventedFirmware& firmware) {
  const std::size_t to =
      dice.below(static_cast<std::uint32_t>(firmware.knobs[1].values.size() - 1));
  const std::size_t value =
      dice.below(static_cast<std::uint32_t>(firmware.knobs[0].values.size() - 1));
  firmware.drags.push_back({0, value + 1, 1, to + 1});
}

}  // namespace

InventedFirmware invent_firmware(Dice& dice) {
  InventedFirmware firmware;
  firmware.size = dice.coin() ? Image::small_size : Image::large_size;
  firmware.blank.assign(firmware.size, 0);
  for (std::uint8_t& byte : firmware.blank) byte = dice.coin() ? std::uint8_t{0} : dice.byte();
  Ground ground(firmware.size);
  firmware.guard = invent_guard(dice, ground, firmware.size);
  const unsigned knobs = 5 + dice.below(4);
  for (unsigned i = 0; i < knobs; ++i)
    firmware.knobs.push_back(invent_knob(dice, ground, fmt::format("setting {}", i + 1)));
  if (dice.coin()) firmware.counters.push_back(ground.take_bytes(dice, 2));
  if (dice.coin()) firmware.restless.push_back(ground.take_bytes(dice, 1));
  if (dice.coin()) invent_drag(dice, firmware);
  if (dice.coin()) firmware.tallies.push_back({{2, 3}, ground.take_bits(dice, 2)});
  return firmware;
}

}  // namespace rtcmend::test
