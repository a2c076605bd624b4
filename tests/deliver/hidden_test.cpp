// A password's bytes are carried into the old machine, and its screen never shows them.
#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <variant>

#include "deliver/debugger.h"
#include "deliver/old_machine.h"
#include "deliver/samples.h"
#include "deliver/small_basic.h"

namespace rtcmend::test {

namespace {

const Addresses area{0x38, 0x39, 0x3A, 0x3B};

/// A sample with these bytes as its password.
Parcel with_password(Parcel parcel, const std::vector<std::uint8_t>& secret) {
  parcel.hidden = area;
  for (std::size_t i = 0; i < area.size(); ++i) parcel.image.set(area[i], secret[i]);
  return parcel;
}

const std::vector<std::uint8_t> one{0xE7, 0xD3, 0xC9, 0xB8}, other{0xB8, 0xC9, 0xE7, 0xD3};

ChipModel guarded_chip() {
  ChipModel chip = OldMachine().chip;
  chip.writable = false;
  return chip;
}

std::string dos_screen(const Parcel& parcel, const ChipModel& chip) {
  OldMachine machine;
  machine.chip = chip;
  machine.keys = "w";
  machine.run_com(deliver(parcel, Way::dos_program).content);
  return machine.screen + machine.errors;
}

std::string basic_screen(const Parcel& parcel, ChipModel& chip) {
  SmallBasic basic(deliver(parcel, Way::basic_listing).content);
  basic.answers = {"W"};
  basic.on_in = [&](int port) { return port == 0x71 ? chip.read() : 0xFF; };
  basic.on_out = [&](int port, int value) {
    if (port == 0x70) chip.selected = value & 0x7F;
    if (port == 0x71) chip.write(static_cast<std::uint8_t>(value));
  };
  basic.run();
  return basic.screen;
}

bool shows(const std::string& screen, std::string_view text) {
  return screen.find(text) != std::string::npos;
}

bool took(const ChipModel& chip, const Image& wanted) {
  for (const Address at : area)
    if (chip.bytes[at] != wanted[at]) return false;
  return true;
}

}  // namespace

TEST_CASE("the DOS program says where a password's byte did not take, and not what it is") {
  const std::string screen = dos_screen(with_password(at_64(), one), guarded_chip());
  INFO(screen);
  CHECK(shows(screen, "38: **, **  39: **, **  "));
  CHECK(shows(screen, "3C: 99, "));  // an open byte, as typed in at_64_bytes
  CHECK_FALSE(shows(screen, "D3"));
  CHECK(screen == dos_screen(with_password(at_64(), other), guarded_chip()));
}

TEST_CASE("the BASIC listing says where a password's byte did not take, and not what it is") {
  ChipModel chip = guarded_chip(), same = guarded_chip();
  const std::string screen = basic_screen(with_password(at_64(), one), chip);
  INFO(screen);
  CHECK(shows(screen, "38: a password's byte"));
  CHECK(shows(screen, "3C: wanted 99, found "));
  CHECK_FALSE(shows(screen, "D3"));
  CHECK(screen == basic_screen(with_password(at_64(), other), same));
}

TEST_CASE("a password's bytes are written by every way that can be run here") {
  const Parcel parcel = with_password(at_64(), one);
  ChipModel chip = OldMachine().chip;
  const std::string screen = basic_screen(parcel, chip);
  INFO(screen);
  CHECK(took(chip, parcel.image));
  CHECK(shows(screen, "All DATA lines are right."));
  OldMachine dos;
  dos.keys = "w";
  dos.run_com(deliver(parcel, Way::dos_program).content);
  CHECK(shows(dos.screen, "Every byte reads back as it was written."));
  CHECK(took(dos.chip, parcel.image));
}

TEST_CASE("the check code is the same for any password") {
  for (const Way way : all_ways()) {
    INFO(name(way));
    CHECK(deliver(with_password(at_64(), one), way).code ==
          deliver(with_password(at_64(), other), way).code);
  }
  // CRC-16/IBM-3740 over the 46 open bytes by Python's binascii.crc_hqx(bytes, 0xFFFF).
  CHECK(deliver(with_password(at_64(), one), Way::dos_program).code == 0xE7E5);
}

TEST_CASE("the debugger script comes to a sign that is the same for any password") {
  const Parcel sample = GENERATE(at_64(), at_128(), balance_64());
  const auto seed = GENERATE(as<std::uint32_t>(), 1, 2);
  for (const auto& secret : {one, other}) {
    Parcel parcel = with_password(sample, secret);
    if (std::holds_alternative<BalanceRule>(parcel.checks[0].rule))
      parcel = sample, parcel.hidden = area;  // its sum covers the password
    OldMachine machine;
    Dice dice(seed);
    fresh_debugger(machine, dice);
    const Delivery delivery = deliver(parcel, Way::debugger_script);
    const std::string printed = debug_session(machine, delivery.content);
    CHECK(took(machine.chip, parcel.image));
    CHECK(delivery.sign == deliver(with_password(sample, one), Way::debugger_script).sign);
    CHECK(shows(printed, fmt::format("BX={:04X}", delivery.sign.value())));
  }
}

}  // namespace rtcmend::test
