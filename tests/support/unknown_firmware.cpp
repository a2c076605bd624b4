#include "support/unknown_firmware.h"

#include <algorithm>
#include <fmt/format.h>

namespace rtcmend::test {

namespace {

using Bytes = std::vector<std::uint8_t>;

// One firmware in ten has no check, one in ten one that is not searched.
UnknownFirmware::Guard draw_guard(Dice& dice) {
  const auto draw = dice.below(10);
  if (draw == 0) return UnknownFirmware::Guard::none;
  return draw == 1 ? UnknownFirmware::Guard::outside : UnknownFirmware::Guard::inside;
}

// Of ten checks: two 8-bit sums, two 16-bit sums, a negated one of each, an xor, an 8-bit CRC, two
// 16-bit CRCs with polynomials that were customary.
Rule draw_rule(Dice& dice) {
  switch (dice.below(10)) {
    case 0:
    case 1:
      return SumRule{8, 0, Sign::plain, std::nullopt};
    case 2:
    case 3:
      return SumRule{16, 0, Sign::plain, std::nullopt};
    case 4:
      return SumRule{8, 0, Sign::negated, std::nullopt};
    case 5:
      return SumRule{16, 0, Sign::negated, std::nullopt};
    case 6:
      return XorRule{dice.coin() ? std::uint8_t{0} : std::uint8_t{0xA5}};
    case 7:
      return CrcRule{{8, 0x07, 0, false, false, 0}};
    case 8:
      return CrcRule{{16, 0x1021, 0xFFFF, false, false, 0}};
    default:
      return CrcRule{{16, 0x8005, 0, true, true, 0}};
  }
}

class Ground {
 public:
  explicit Ground(std::size_t size) : taken_(size, false) {
    for (std::size_t at = 0; at < 0x10; ++at) taken_[at] = true;
  }
  void take(Address at) { taken_[at] = true; }
  Address draw(Dice& dice) {
    for (;;) {
      const auto at = static_cast<Address>(dice.below(static_cast<std::uint32_t>(taken_.size())));
      if (taken_[at]) continue;
      taken_[at] = true;
      return at;
    }
  }

 private:
  std::vector<bool> taken_;
};

// Half of the settings are codes of one to four bits, half numbers of a byte.
UnknownFirmware::Setting draw_setting(Dice& dice, Ground& ground, unsigned number) {
  UnknownFirmware::Setting setting;
  setting.name = fmt::format("setting {}", number);
  setting.at = ground.draw(dice);
  const unsigned bits = dice.coin() ? 8 : 1 + dice.below(4);
  setting.shift = bits == 8 ? 0 : dice.below(9 - bits);
  setting.mask = static_cast<std::uint8_t>((1U << bits) - 1);
  const unsigned values = bits == 1 ? 2 : std::min(4U, 1U << bits);
  if (dice.coin()) setting.codes.push_back(0);
  while (setting.codes.size() < values) {
    const auto code = static_cast<std::uint8_t>(dice.byte() & setting.mask);
    if (std::ranges::count(setting.codes, code) == 0) setting.codes.push_back(code);
  }
  return setting;
}

// By a value that is not where the setting rests, on another setting.
UnknownFirmware::Force draw_force(Dice& dice, const UnknownFirmware& firmware) {
  const auto count = static_cast<std::uint32_t>(firmware.settings.size());
  UnknownFirmware::Force force;
  force.by = dice.below(count);
  force.forced = (force.by + 1 + dice.below(count - 1)) % count;
  const auto values = [&](std::size_t setting) {
    return static_cast<std::uint32_t>(firmware.settings[setting].codes.size());
  };
  force.value = 1 + dice.below(values(force.by) - 1);
  force.to = dice.below(values(force.forced));
  return force;
}

std::uint8_t code_in(const Bytes& bytes, const UnknownFirmware::Setting& setting) {
  return static_cast<std::uint8_t>(bytes[setting.at] >> setting.shift & setting.mask);
}

void place_check(Dice& dice, UnknownFirmware& firmware, Ground& ground) {
  firmware.check.rule = draw_rule(dice);
  firmware.check.order = dice.coin() ? Order::high_first : Order::low_first;
  const auto first = static_cast<Address>(0x10 + dice.below(5));
  const auto last = static_cast<Address>(0x28 + dice.below(12));
  firmware.check.over = {{{first, last}, std::nullopt}};
  firmware.check.stored_at = static_cast<Address>(last + 1 + dice.below(3));
  for (const Address at : stored_addresses(firmware.check)) ground.take(at);
  if (firmware.guard == UnknownFirmware::Guard::outside)
    for (unsigned i = 0; i < 3; ++i)
      firmware.hole.push_back(static_cast<Address>(first + 5 + dice.below(12)));
}

}  // namespace

UnknownFirmware draw_firmware(Dice& dice) {
  UnknownFirmware firmware;
  firmware.guard = draw_guard(dice);
  firmware.size = dice.below(4) == 0 ? Image::large_size : Image::small_size;
  firmware.blank.assign(firmware.size, 0);
  // Of three bytes that no setting has, two are 0.
  for (std::uint8_t& byte : firmware.blank)
    byte = dice.below(3) == 0 ? dice.byte() : std::uint8_t{0};
  Ground ground(firmware.size);
  place_check(dice, firmware, ground);
  const unsigned settings = 4 + dice.below(6);
  for (unsigned i = 0; i < settings; ++i)
    firmware.settings.push_back(draw_setting(dice, ground, i + 1));
  if (dice.coin()) {
    for (unsigned i = 1 + dice.below(3); i > 0; --i) {
      firmware.counters.push_back(ground.draw(dice));
      firmware.strides.push_back(dice.below(3) == 0 ? std::uint8_t{3} : std::uint8_t{1});
    }
  }
  if (dice.below(3) == 0) firmware.noise.push_back(ground.draw(dice));
  if (dice.below(4) == 0) firmware.tally = ground.draw(dice);
  if (dice.below(4) == 0) firmware.mirror = {dice.below(settings), ground.draw(dice)};
  if (dice.below(5) == 0) firmware.force = draw_force(dice, firmware);
  return firmware;
}

UnknownMachine::UnknownMachine(UnknownFirmware firmware, std::uint32_t start)
    : firmware_(std::move(firmware)), dice_(start) {
  for (std::size_t i = 0; i < firmware_.counters.size(); ++i) counts_.push_back(dice_.byte());
}

void UnknownMachine::protect(Bytes& bytes) const {
  if (firmware_.guard == UnknownFirmware::Guard::none) return;
  Bytes covered;
  const Range range = firmware_.check.over[0].range;
  for (unsigned at = range.first; at <= range.last; ++at)
    if (std::ranges::count(firmware_.hole, at) == 0) covered.push_back(bytes[at]);
  const unsigned value = compute(firmware_.check.rule, covered);
  const Addresses stored = stored_addresses(firmware_.check);
  const auto low = static_cast<std::uint8_t>(value & 0xFF);
  const auto high = static_cast<std::uint8_t>(value >> 8);
  if (stored.size() == 1) {
    bytes[stored[0]] = low;
    return;
  }
  const bool low_first = firmware_.check.order == Order::low_first;
  bytes[stored[0]] = low_first ? low : high;
  bytes[stored[1]] = low_first ? high : low;
}

// The settings as stored, and all that is worked out from them but the check.
void UnknownMachine::store(const Bytes& codes, Bytes& bytes) const {
  Bytes stored = codes;
  if (const auto& force = firmware_.force)
    if (codes[force->by] == firmware_.settings[force->by].codes[force->value])
      stored[force->forced] = firmware_.settings[force->forced].codes[force->to];
  for (std::size_t i = 0; i < stored.size(); ++i) {
    const UnknownFirmware::Setting& setting = firmware_.settings[i];
    const auto mask = static_cast<std::uint8_t>(setting.mask << setting.shift);
    bytes[setting.at] =
        static_cast<std::uint8_t>((bytes[setting.at] & ~mask) | stored[i] << setting.shift);
  }
  if (firmware_.tally)
    bytes[*firmware_.tally] =
        static_cast<std::uint8_t>((stored[0] != 0 ? 1 : 0) + (stored[1] != 0 ? 1 : 0));
  if (const auto& mirror = firmware_.mirror)
    bytes[mirror->at] = static_cast<std::uint8_t>(~stored[mirror->setting] &
                                                  firmware_.settings[mirror->setting].mask);
}

Image UnknownMachine::start(const std::vector<std::size_t>& values) {
  Bytes bytes = firmware_.blank, codes;
  for (std::size_t i = 0; i < values.size(); ++i)
    codes.push_back(firmware_.settings[i].codes[values[i]]);
  store(codes, bytes);
  for (std::size_t i = 0; i < counts_.size(); ++i) {
    counts_[i] = static_cast<std::uint8_t>(counts_[i] + firmware_.strides[i]);
    bytes[firmware_.counters[i]] = counts_[i];
  }
  for (const Address at : firmware_.noise) bytes[at] = dice_.byte();
  const std::uint8_t clock[] = {0x10, 0x00, 0x20, 0x00, 0x09, 0x00, 0x05,
                                0x15, 0x05, 0x97, 0x26, 0x02, 0x00, 0x80};
  std::ranges::copy(clock, bytes.begin());
  protect(bytes);
  return Image(bytes);
}

Image UnknownMachine::start_anyhow() {
  std::vector<std::size_t> values;
  for (const UnknownFirmware::Setting& setting : firmware_.settings)
    values.push_back(dice_.below(static_cast<std::uint32_t>(setting.codes.size())));
  return start(values);
}

bool UnknownMachine::accepts(const Image& image) const {
  Bytes bytes(image.bytes().begin(), image.bytes().end()), codes;
  for (const UnknownFirmware::Setting& setting : firmware_.settings)
    codes.push_back(code_in(bytes, setting));
  store(codes, bytes);
  protect(bytes);
  return Image(bytes) == image;
}

}  // namespace rtcmend::test
