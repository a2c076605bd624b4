#include <catch2/catch.hpp>

#include "base/error.h"
#include "deliver/old_machine.h"
#include "deliver/samples.h"

namespace rtcmend::test {

using namespace std::string_literals;

namespace {

/// Runs the DOS program of a parcel on a machine, the keys typed.
OldMachine& run(OldMachine& machine, const Parcel& parcel, const std::string& keys) {
  machine.keys = keys;
  const std::string program = deliver(parcel, Way::dos_program).content;
  const Stop stop = machine.run_com(program);
  INFO(machine.screen);
  CHECK((stop == Stop::ended || stop == Stop::restarted));
  return machine;
}

bool shows(const OldMachine& machine, std::string_view text) {
  return machine.screen.find(text) != std::string::npos;
}

std::uint8_t chip(const OldMachine& machine, Address at) {
  return machine.chip.bytes[at];
}

Addresses differing(const Image& wanted, const Image& found) {
  Addresses differ;
  for (Address at = Image::ram_start; at < wanted.size(); ++at)
    if (wanted.at(at) != found.at(at)) differ.push_back(at);
  return differ;
}

Parcel asking(Parcel parcel) {
  parcel.clock = ClockPolicy::ask;
  return parcel;
}

}  // namespace

TEST_CASE("the DOS program writes every RAM byte and leaves a running clock alone") {
  OldMachine machine;
  const Parcel parcel = at_64();
  run(machine, parcel, "w");
  CHECK(differing(parcel.image, machine.chip.image(64)) == Addresses{});
  CHECK(machine.exit_code == 0);
  CHECK(shows(machine, "Every byte reads back as it was written."));
  CHECK(shows(machine, "The clock runs and is left alone: 94-05-06 12:00:0"));
  CHECK(shows(machine, "RAM bytes to write: 50; left alone: none"));
}

TEST_CASE("writing keeps the safe order and leaves the port at register D with NMI on") {
  OldMachine machine;
  run(machine, asking(at_64()), "1994-05-06\n12:00\nw");
  const auto& writes = machine.chip.writes;
  // SET first; 00-09; A; century; RAM with 2F, 2E last; B as wanted: entry order of common
  // practice.
  REQUIRE(writes.size() == 1 + 10 + 1 + 50 + 1);
  CHECK(writes.front() == std::pair<Address, std::uint8_t>{0x0B, 0x82});
  for (Address at = 0; at <= 0x0A; ++at) CHECK(writes[1U + at].first == at);
  CHECK(writes[11].second == 0x26);
  CHECK(writes[12].first == 0x32);
  CHECK(writes[13].first == 0x0E);
  CHECK(writes[60].first == 0x2F);
  CHECK(writes[61].first == 0x2E);
  CHECK(writes.back() == std::pair<Address, std::uint8_t>{0x0B, 0x02});
  CHECK(machine.guarded);
  CHECK(machine.chip.selected == 0x0D);
  CHECK_FALSE(machine.chip.nmi_masked);
  CHECK(machine.other_writes == 0);
}

TEST_CASE("a century of the running clock stays, one that no clock could have is replaced") {
  OldMachine machine;
  machine.chip.bytes[0x32] = 0x20;
  run(machine, at_64(), "w");
  CHECK(chip(machine, 0x32) == 0x20);
  OldMachine blank;
  blank.chip.bytes[0x32] = 0xFF;
  run(blank, at_64(), "w");
  CHECK(chip(blank, 0x32) == 0x19);
}

TEST_CASE("any key but W leaves the chip as it is") {
  for (const char* key : {"n", "\x1B", " ", "\n"}) {
    OldMachine machine;
    run(machine, at_64(), key);
    CHECK(machine.chip.writes.empty());
    CHECK(machine.exit_code == 2);
    CHECK(shows(machine, "Nothing was written."));
  }
}

TEST_CASE("the time asked for is written with weekday and century") {
  OldMachine machine;
  run(machine, asking(at_64()), "2031-05-14\n9:30\nw");
  CHECK(chip(machine, 0x02) == 0x30);
  CHECK(chip(machine, 0x04) == 0x09);
  CHECK(chip(machine, 0x06) == 4);  // Wednesday
  CHECK(chip(machine, 0x07) == 0x14);
  CHECK(chip(machine, 0x08) == 0x05);
  CHECK(chip(machine, 0x09) == 0x31);
  CHECK(chip(machine, 0x32) == 0x20);
  CHECK(shows(machine, "The clock is counting."));
}

TEST_CASE("weekdays are those of the calendar") {
  const auto [date, weekday] = GENERATE(table<std::string, int>({
      {"1980-1-1", 3},    // Tuesday
      {"1980-3-1", 7},    // Saturday
      {"1999-12-31", 6},  // Friday
      {"2000-02-29", 3},  // Tuesday
      {"2001-03-01", 5},  // Thursday
      {"2024-12-25", 4},  // Wednesday
      {"2099-12-31", 5},  // Thursday
  }));
  OldMachine machine;
  run(machine, asking(at_64()), date + "\n0:00\nw");
  CHECK(int{chip(machine, 0x06)} == weekday);
}

TEST_CASE("dates and times that do not exist are asked for again") {
  OldMachine machine;
  run(machine, asking(at_64()),
      "1999-02-29\n2000-13-01\n1979-12-31\n2100-01-01\ntoday\n2000-00-10\n2000-04-31\n1996-02-29\n"
      "24:00\n12:60\n7\n07:05:61\n07:05:09\nw");
  CHECK(chip(machine, 0x07) == 0x29);
  CHECK(chip(machine, 0x08) == 0x02);
  CHECK(chip(machine, 0x09) == 0x96);
  CHECK(chip(machine, 0x04) == 0x07);
  CHECK(chip(machine, 0x02) == 0x05);
  CHECK(chip(machine, 0x32) == 0x19);
}

TEST_CASE("the time is written in the mode that register B asks for") {
  // Register B bit 2: binary; bit 1: 24 hours; without it bit 7 of the hours is PM (DS12885).
  const auto [b, time, hours, minutes] = GENERATE(table<int, std::string, int, int>({
      {0x02, "23:45", 0x23, 0x45},
      {0x06, "23:45", 0x17, 0x2D},
      {0x00, "23:45", 0x91, 0x45},
      {0x04, "23:45", 0x8B, 0x2D},
      {0x00, "0:30", 0x12, 0x30},
      {0x04, "0:30", 0x0C, 0x1E},
      {0x00, "12:00", 0x92, 0x00},
      {0x04, "12:00", 0x8C, 0x00},
      {0x00, "11:59", 0x11, 0x59},
  }));
  Parcel parcel = asking(at_64());
  parcel.image.set(0x0B, static_cast<std::uint8_t>(b));
  OldMachine machine;
  run(machine, parcel, "1994-05-06\n" + time + "\nw");
  CHECK(int{chip(machine, 0x04)} == hours);
  CHECK(int{chip(machine, 0x02)} == minutes);
  CHECK(int{chip(machine, 0x0B)} == b);
}

TEST_CASE("a clock that does not run is asked for, and Enter leaves it") {
  const auto damage =
      GENERATE(as<std::pair<Address, std::uint8_t>>(), std::pair{0x0A, 0x66}, std::pair{0x0B, 0x82},
               std::pair{0x02, 0x7A}, std::pair{0x08, 0x13}, std::pair{0x0D, 0x00});
  OldMachine machine;
  machine.chip.bytes[damage.first] = damage.second;
  run(machine, at_64(), "\nw");
  CHECK(shows(machine, "The date today"));
  CHECK(shows(machine, "The clock is left alone."));
  CHECK(chip(machine, damage.first) == damage.second);
  CHECK(chip(machine, 0x10) == 0x40);
}

TEST_CASE("the image's time is written when it is asked for") {
  Parcel parcel = at_64();
  parcel.clock = ClockPolicy::image;
  parcel.image.set(0x04, 0x21);
  OldMachine machine;
  machine.chip.bytes[0x0A] = 0x00;  // a module as it is shipped: the oscillator off (DS12885)
  run(machine, parcel, "w");
  CHECK(chip(machine, 0x04) == 0x21);
  CHECK(chip(machine, 0x09) == 0x94);
  CHECK(chip(machine, 0x0A) == 0x26);
  CHECK(shows(machine, "The clock is counting."));
}

TEST_CASE("what did not take is listed, with what it means") {
  OldMachine absent;
  absent.chip.present = false;
  run(absent, at_64(), "\nw");
  CHECK(shows(absent, "FFh everywhere: no chip answers."));
  CHECK(absent.exit_code == 1);

  OldMachine guarded;
  guarded.chip.writable = false;
  run(guarded, at_64(), "w");
  CHECK(shows(guarded, "the chip is write protected"));

  OldMachine worn;
  worn.cpu.on_out = [&worn, old = worn.cpu.on_out](std::uint16_t port, std::uint8_t value) {
    old(port, port == 0x71 && worn.chip.selected == 0x12 ? value & 0x7F : value);
  };
  run(worn, at_64(), "w");
  CHECK(shows(worn, "1 byte(s) did not take"));
  CHECK(shows(worn, "12: F0, 70"));
  CHECK(shows(worn, "a bit of the chip or of its data lines is at fault"));

  OldMachine flat;
  flat.chip.bytes[0x0D] = 0x00;
  run(flat, at_64(), "\nw");
  CHECK(shows(flat, "its cell is flat or missing (VRT = 0)"));

  OldMachine stopped;
  stopped.chip.counts = false;
  run(stopped, asking(at_64()), "1994-05-06\n12:00\nw");
  CHECK(shows(stopped, "The clock does not count"));
}

TEST_CASE("an image of 128 bytes is kept from a chip of 64") {
  OldMachine half;
  half.chip.half = true;
  run(half, at_128(), "w");
  CHECK(shows(half, "This chip has 64 bytes and the image 128. Nothing was written."));
  CHECK(differing(Image(std::array<std::uint8_t, 64>{}), half.chip.image(64)) == Addresses{});
  OldMachine whole;
  run(whole, at_128(), "w");
  CHECK(differing(at_128().image, whole.chip.image(128)) == Addresses{});
}

TEST_CASE("unknown bytes are left alone, and the program says which") {
  Parcel parcel = at_64();
  parcel.image.forget(0x3A);
  parcel.image.forget(0x3B);
  parcel.leave_alone = {0x0F};
  OldMachine machine;
  for (const Address at : Addresses{0x0F, 0x3A, 0x3B}) machine.chip.bytes[at] = 0x77;
  run(machine, parcel, "w");
  CHECK(shows(machine, "RAM bytes to write: 47; left alone: 0Fh, 3Ah-3Bh"));
  CHECK(differing(parcel.image, machine.chip.image(64)) == Addresses{0x0F, 0x3A, 0x3B});
  for (const Address at : Addresses{0x0F, 0x3A, 0x3B}) CHECK(chip(machine, at) == 0x77);
}

TEST_CASE("a program that was damaged on its way writes nothing") {
  std::string program = deliver(at_64(), Way::dos_program).content;
  const auto at = program.find("\x40\x00\xF0\x03\x41"s);
  REQUIRE(at != std::string::npos);
  program[at] = '\x41';
  OldMachine machine;
  machine.keys = "www";
  machine.run_com(program);
  CHECK(machine.chip.writes.empty());
  CHECK(shows(machine, "This program was damaged"));
}

TEST_CASE("a parcel without a legal time cannot promise the image's") {
  Parcel parcel = at_64();
  parcel.clock = ClockPolicy::image;
  parcel.image.forget(0x07);
  CHECK_THROWS_AS(deliver(parcel, Way::dos_program), Error);
  parcel.image.set(0x07, 0x32);
  CHECK_THROWS_AS(deliver(parcel, Way::dos_program), Error);
}

}  // namespace rtcmend::test
