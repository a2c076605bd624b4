#include "support/unknown_firmware.h"

#include <algorithm>
#include <fmt/format.h>

namespace rtcmend::test {

namespace {

using Bytes = std::vector<std::uint8_t>;

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

void draw_restless(Dice& dice, UnknownFirmware& firmware, Ground& ground) {
  if (dice.coin()) {
    for (unsigned i = 1 + dice.below(3); i > 0; --i) {
      firmware.counters.push_back(ground.draw(dice));
      firmware.strides.push_back(dice.below(3) == 0 ? std::uint8_t{3} : std::uint8_t{1});
    }
    if (dice.below(3) == 0) firmware.carry = ground.draw(dice);
    firmware.is_started_between = dice.coin();
  }
  if (dice.below(3) == 0) firmware.noise.push_back(ground.draw(dice));
  if (!firmware.noise.empty() && dice.below(3) == 0) firmware.noise.push_back(ground.draw(dice));
}

Check draw_second(Dice& dice) {
  Check check;
  check.rule = SumRule{};
  check.over = {{{0x40, static_cast<Address>(0x60 + dice.below(0x18))}, std::nullopt}};
  check.stored_at = static_cast<Address>(check.over[0].range.last + 1);
  return check;
}

}  // namespace

UnknownFirmware draw_firmware(Dice& dice) {
  UnknownFirmware firmware;
  firmware.guard = draw_guard(dice);
  firmware.size = dice.below(4) == 0 ? Image::large_size : Image::small_size;
  // Of three bytes that no setting has, two are as in an empty chip, all zeros or, in one chip of
  // four, all ones.
  const std::uint8_t empty = dice.below(4) == 0 ? 0xFF : 0;
  firmware.blank.assign(firmware.size, empty);
  for (std::uint8_t& byte : firmware.blank)
    if (dice.below(3) == 0) byte = dice.byte();
  Ground ground(firmware.size);
  for (const Address at : stored_addresses(firmware.guard.check)) ground.take(at);
  if (firmware.size == Image::large_size && dice.coin()) {
    firmware.second = draw_second(dice);
    for (const Address at : stored_addresses(*firmware.second)) ground.take(at);
  }
  const unsigned settings = 4 + dice.below(6);
  for (unsigned i = 0; i < settings; ++i)
    firmware.settings.push_back(draw_setting(dice, ground, i + 1));
  draw_restless(dice, firmware, ground);
  if (dice.below(4) == 0) firmware.tally = ground.draw(dice);
  if (dice.below(4) == 0) firmware.mirror = {dice.below(settings), ground.draw(dice)};
  if (dice.below(5) == 0) firmware.force = draw_force(dice, firmware);
  return firmware;
}

UnknownMachine::UnknownMachine(UnknownFirmware firmware, std::uint32_t start)
    : firmware_(std::move(firmware)), dice_(start) {
  for (std::size_t i = 0; i < firmware_.counters.size(); ++i)
    counts_.push_back(unsigned{dice_.byte()} << 8 | dice_.byte());
}

void UnknownMachine::protect(Bytes& bytes) const {
  test::protect(firmware_.guard, bytes);
  if (!firmware_.second) return;
  Image image(bytes);
  seal_one(*firmware_.second, image);
  std::ranges::copy(image.bytes(), bytes.begin());
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

void UnknownMachine::count(Bytes& bytes) {
  const unsigned starts = firmware_.is_started_between ? 1 + dice_.below(3) : 1;
  for (std::size_t i = 0; i < counts_.size(); ++i) {
    counts_[i] += starts * firmware_.strides[i];
    bytes[firmware_.counters[i]] = static_cast<std::uint8_t>(counts_[i]);
  }
  if (firmware_.carry) bytes[*firmware_.carry] = static_cast<std::uint8_t>(counts_[0] >> 8);
  const std::uint8_t noise = dice_.byte();
  for (const Address at : firmware_.noise) bytes[at] = noise;
}

// A few minutes from one dump to the next, on one day.
void UnknownMachine::tick(Bytes& bytes) {
  const auto decimal = [](unsigned number) {
    return static_cast<std::uint8_t>(number / 10 << 4 | number % 10);
  };
  minutes_ = (minutes_ + 3 + dice_.below(6)) % (24 * 60);
  const std::uint8_t clock[] = {decimal(dice_.below(60)),
                                0x00,
                                decimal(minutes_ % 60),
                                0x00,
                                decimal(minutes_ / 60),
                                0x00,
                                0x05,
                                0x15,
                                0x05,
                                0x97,
                                0x26,
                                0x02,
                                0x00,
                                0x80};
  std::ranges::copy(clock, bytes.begin());
}

Image UnknownMachine::start(const std::vector<std::size_t>& values) {
  Bytes bytes = firmware_.blank, codes;
  for (std::size_t i = 0; i < values.size(); ++i)
    codes.push_back(firmware_.settings[i].codes[values[i]]);
  store(codes, bytes);
  count(bytes);
  tick(bytes);
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
