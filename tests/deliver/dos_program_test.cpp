#include <catch2/catch.hpp>

#include "base/error.h"
#include "deliver/old_machine.h"
#include "deliver/restore_program.h"
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
  return (machine.screen + machine.errors).find(text) != std::string::npos;
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
  run(machine, asking(at_64()), "w1994-05-06\n12:00\n");
  const auto& writes = machine.chip.writes;
  // A check byte spoiled; SET; 00-09; A; century; RAM with 2F, 2E last; B as wanted: entry order of
  // common practice.
  REQUIRE(writes.size() == 1 + 1 + 10 + 1 + 50 + 1);
  CHECK(writes.front().first == 0x2E);
  CHECK(writes.front().second != 0x08);
  CHECK(writes[1] == std::pair<Address, std::uint8_t>{0x0B, 0x82});
  for (Address at = 0; at <= 0x0A; ++at) CHECK(writes[2U + at].first == at);
  CHECK(writes[12].second == 0x26);
  CHECK(writes[13].first == 0x32);
  CHECK(writes[14].first == 0x0E);
  CHECK(writes[61].first == 0x2F);
  CHECK(writes[62] == std::pair<Address, std::uint8_t>{0x2E, 0x08});
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

TEST_CASE(
    "N, Esc and Enter leave the chip as it is, another key than those of the menu asks again") {
  for (const char* key : {"n", "\x1B", "\n", "x qn", "xxxxxxxxxxxxxxxxxxxxxxxxxxxx"}) {
    OldMachine machine;
    run(machine, at_64(), key);
    CHECK(machine.chip.writes.empty());
    CHECK(machine.exit_code == 2);
    CHECK(shows(machine, "Nothing was written."));
  }
  OldMachine patient;
  run(patient, at_64(), "xqw");
  CHECK(patient.exit_code == 0);
  CHECK(chip(patient, 0x10) == 0x40);
}

TEST_CASE("S shows the chip as rows, and writes nothing") {
  OldMachine machine;
  for (Address at = 0x0E; at < 0x80; ++at)
    machine.chip.bytes[at] = static_cast<std::uint8_t>(at * 37 + 11);
  run(machine, at_64(), "sn");
  CHECK(machine.chip.writes.empty());
  CHECK(shows(machine, "10: 5B 80 A5 CA EF 14 39 5E 83 A8 CD F2 17 3C 61 86 ="));
  CHECK(shows(machine, "70: "));
}

TEST_CASE("C sets the clock and nothing else, and W then leaves it alone") {
  OldMachine machine;
  machine.chip.bytes[0x0A] = 0x00;
  run(machine, at_64(), "c2031-05-14\n9:30\nn");
  CHECK(machine.exit_code == 0);
  CHECK(chip(machine, 0x04) == 0x09);
  CHECK(chip(machine, 0x0A) == 0x26);
  CHECK(chip(machine, 0x32) == 0x20);
  CHECK(machine.chip.writes.size() == 1 + 11 + 1 + 1);
  CHECK(machine.chip.writes.back() == std::pair<Address, std::uint8_t>{0x0B, 0x02});
  CHECK(shows(machine, "The clock runs and is left alone: 2031-05-14 09:30:0"));
  CHECK(shows(machine, "Nothing was written but the clock."));
  OldMachine both;
  run(both, asking(at_64()), "c2031-05-14\n9:30\nw");
  CHECK(chip(both, 0x04) == 0x09);
  CHECK(chip(both, 0x10) == 0x40);
  CHECK(both.exit_code == 0);
}

TEST_CASE("what is asked is shown on the screen even where > sends the rest to a file") {
  OldMachine machine;
  run(machine, asking(at_64()), "w1994-05-06\n12:00\n");
  CHECK(machine.errors.find("W writes the chip;") != std::string::npos);
  CHECK(machine.errors.find("The date today") != std::string::npos);
  CHECK(machine.errors.find("1994-05-06") != std::string::npos);
  CHECK(machine.screen.find("The date today") == std::string::npos);
  CHECK(machine.screen.find("Every byte reads back") != std::string::npos);
}

TEST_CASE("the time asked for is the last thing before it is written") {
  OldMachine machine;
  std::size_t writes_at_question = 999;
  machine.cpu.on_interrupt = [&machine, &writes_at_question,
                              old = machine.cpu.on_interrupt](std::uint8_t number) {
    if (machine.keys == "12:00\n") writes_at_question = machine.chip.writes.size();
    return old(number);
  };
  run(machine, asking(at_64()), "w1994-05-06\n12:00\n");
  CHECK(writes_at_question == 0);
  CHECK(machine.keys.empty());  // nothing was asked behind it
  CHECK(chip(machine, 0x04) == 0x12);
}

TEST_CASE("a clock of twelve hours and one that is years off are shown as they are") {
  OldMachine machine;
  machine.chip.bytes[0x04] = 0x82;
  machine.chip.bytes[0x0B] = 0x00;
  machine.chip.bytes[0x32] = 0x20;
  run(machine, at_64(), "n");
  CHECK(shows(machine, "left alone: 2094-05-06 02:00:0"));
  CHECK(shows(machine, " pm (a clock of 12 hours)"));
  CHECK(shows(machine, "C sets its clock and nothing else"));
  OldMachine morning;
  morning.chip.bytes[0x04] = 0x0C;
  morning.chip.bytes[0x0B] = 0x04;
  morning.chip.bytes[0x09] = 94;
  morning.chip.bytes[0x08] = 5;
  run(morning, at_64(), "n");
  CHECK(shows(morning, " am (a clock of 12 hours) (a binary clock)"));
}

TEST_CASE("the time asked for is written with weekday and century") {
  OldMachine machine;
  run(machine, asking(at_64()), "w2031-05-14\n9:30\n");
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
  run(machine, asking(at_64()), "w" + date + "\n0:00\n");
  CHECK(int{chip(machine, 0x06)} == weekday);
}

TEST_CASE("dates and times that do not exist are asked for again") {
  OldMachine machine;
  run(machine, asking(at_64()),
      "w1999-02-29\n2000-13-01\n1979-12-31\n2100-01-01\ntoday\n2000-00-10\n2000-04-31\n1996-02-29\n"
      "24:00\n12:60\n7\n2:30 pm\n2:30p\n07:05:61\n07:05:09\n");
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
  run(machine, parcel, "w1994-05-06\n" + time + "\n");
  CHECK(int{chip(machine, 0x04)} == hours);
  CHECK(int{chip(machine, 0x02)} == minutes);
  CHECK(int{chip(machine, 0x0B)} == b);
}

TEST_CASE("a clock that does not run is asked for, with the reason, and Enter leaves it") {
  const auto [at, damage, why] = GENERATE(table<Address, std::uint8_t, std::string>({
      {0x0A, 0x66, "is switched off"},
      {0x0B, 0x82, "is held still"},
      {0x02, 0x7A, "holds no date and time that can be"},
      {0x08, 0x13, "holds no date and time that can be"},
      {0x0D, 0x00, "has been without power"},
  }));
  for (const char* keys : {"w\n", "w1994-05-06\n\n"}) {
    OldMachine machine;
    machine.chip.bytes[at] = damage;
    run(machine, at_64(), keys);
    CHECK(shows(machine, "W asks for the time, because the clock " + why + "."));
    CHECK(shows(machine, "The date today"));
    CHECK(shows(machine, "The clock is left alone."));
    CHECK(chip(machine, at) == damage);
    CHECK(chip(machine, 0x10) == 0x40);
  }
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
  run(absent, at_64(), "w\n");
  CHECK(shows(absent, "FFh everywhere: no chip answers."));
  CHECK(absent.exit_code == 1);

  OldMachine guarded;
  guarded.chip.writable = false;
  run(guarded, at_64(), "w");
  CHECK(shows(guarded, "None took: the chip is write protected"));

  OldMachine kept;  // one byte that the machine keeps itself
  kept.cpu.on_out = [&kept, old = kept.cpu.on_out](std::uint16_t port, std::uint8_t value) {
    old(port, port == 0x71 && kept.chip.selected == 0x12 ? kept.chip.bytes[0x12] : value);
  };
  run(kept, at_64(), "w");
  CHECK(shows(kept, "1 byte(s) did not take"));
  CHECK(shows(kept, "They kept what they held, and others took"));
  CHECK_FALSE(shows(kept, "write protected"));

  OldMachine almost;  // the others hold the image already, so only the spoiled byte tells
  for (Address at = 0x0E; at < 0x40; ++at) almost.chip.bytes[at] = at_64().image[at];
  almost.chip.bytes[0x12] = 0x55;
  almost.cpu.on_out = [&almost, old = almost.cpu.on_out](std::uint16_t port, std::uint8_t value) {
    old(port, port == 0x71 && almost.chip.selected == 0x12 ? std::uint8_t{0x55} : value);
  };
  run(almost, at_64(), "w");
  CHECK_FALSE(shows(almost, "write protected"));

  OldMachine one;
  one.chip.one_century = true;
  Parcel two = crc_64();
  two.image.set(0x37, 0x19);
  run(one, two, "w");
  CHECK(shows(one, "This machine keeps 32h and 37h as one byte"));

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
  run(flat, at_64(), "w\n");
  CHECK(shows(flat, "its cell is flat or missing (VRT = 0)"));

  OldMachine stopped;
  stopped.chip.counts = false;
  run(stopped, asking(at_64()), "w1994-05-06\n12:00\n");
  CHECK(shows(stopped, "The clock does not count"));
}

TEST_CASE("an image of 128 bytes is kept from a chip of 64") {
  OldMachine half;
  half.chip.half = true;
  run(half, at_128(), "w");
  CHECK(shows(half, "This chip has 64 bytes and the image 128. Nothing was written."));
  OldMachine seen;  // without a write, and before W
  seen.chip.half = true;
  seen.chip.bytes[0x20] = 0x55;
  run(seen, at_128(), "w");
  CHECK(seen.chip.writes.empty());
  CHECK_FALSE(shows(seen, "W writes the chip"));
  CHECK(shows(seen, "This chip has 64 bytes and the image 128. Nothing was written."));
  CHECK(differing(Image(std::array<std::uint8_t, 64>{}), half.chip.image(64)) == Addresses{});
  OldMachine whole;
  run(whole, at_128(), "w");
  CHECK(differing(at_128().image, whole.chip.image(128)) == Addresses{});
}

TEST_CASE("unknown bytes are left alone, and the program says which") {
  Parcel parcel = at_64();
  parcel.image.forget(0x3A);
  parcel.image.forget(0x3B);
  OldMachine machine;
  for (const Address at : Addresses{0x3A, 0x3B}) machine.chip.bytes[at] = 0x77;
  run(machine, parcel, "w");
  CHECK(
      shows(machine, "RAM bytes to write: 48; left alone: 3Ah-3Bh (the image does not know them)"));
  CHECK(differing(parcel.image, machine.chip.image(64)) == Addresses{0x3A, 0x3B});
  for (const Address at : Addresses{0x3A, 0x3B}) CHECK(chip(machine, at) == 0x77);
}

TEST_CASE("the floppy's own program has the same menu, whatever the loader left in the registers") {
  const Parcel parcel = at_64();
  const std::string program = restore_program("restore_floppy", parcel, plan_writing(parcel));
  OldMachine machine;
  machine.keys = "xqswr";
  CHECK(machine.run_booted(program) == Stop::restarted);
  CHECK(machine.errors.empty());  // there is no DOS
  CHECK(shows(machine, "W writes the chip;"));
  CHECK(shows(machine, "00: "));
  CHECK(shows(machine, "Every byte reads back as it was written."));
  CHECK(differing(parcel.image, machine.chip.image(64)) == Addresses{});
  CHECK(machine.chip.writes.size() == 51);  // 50 RAM bytes, the spoiled one twice
  CHECK(machine.guarded);
  CHECK(machine.chip.selected == 0x0D);
  CHECK_FALSE(machine.chip.nmi_masked);
  OldMachine left;
  left.keys = "nr";
  CHECK(left.run_booted(program) == Stop::restarted);
  CHECK(left.chip.writes.empty());
  CHECK(shows(left, "Nothing was written.\r\n"));
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

namespace {

/// The machine of at_64(), whose firmware is a PC's, its image counting as register B says: the
/// same time, written down that way.
Parcel of_a_pc(std::uint8_t b, ClockPolicy clock) {
  Parcel parcel = at_64();
  parcel.of_a_pc = true;
  parcel.clock = clock;
  parcel.image.set(0x0B, b);
  if ((b & 4) != 0)  // binary: 1994-05-06 12:00:00 is 5Eh, 05h, 06h, 0Ch
    parcel.image.set(0x09, 0x5E), parcel.image.set(0x04, 0x0C);
  if ((b & 2) == 0)  // twelve hours: noon is 12 in the afternoon
    parcel.image.set(0x04, (b & 4) != 0 ? 0x8C : 0x92);
  return parcel;
}

}  // namespace

// PC firmware reads BCD on a 24-hour dial (RBIL61, INT 1Ah AH = 02h); register B: DS12885.
TEST_CASE("a time that is asked for is written in BCD of 24 hours, whatever the image counts in") {
  const auto b = GENERATE(as<std::uint8_t>(), 0x02, 0x00, 0x06, 0x04);
  const auto policy = GENERATE(ClockPolicy::ask, ClockPolicy::keep);
  INFO(int{b});
  OldMachine machine;
  if (policy == ClockPolicy::keep) machine.chip.bytes[0x0A] = 0x06;  // stopped, so it asks
  run(machine, of_a_pc(b, policy), "w1998-10-31\n23:45\n");
  CHECK(int{chip(machine, 0x0B)} == 0x02);
  CHECK(int{chip(machine, 0x04)} == 0x23);
  CHECK(int{chip(machine, 0x02)} == 0x45);
  CHECK(int{chip(machine, 0x07)} == 0x31);
  CHECK(int{chip(machine, 0x08)} == 0x10);
  CHECK(int{chip(machine, 0x09)} == 0x98);
  CHECK(shows(machine, "A clock that is set counts in BCD on a 24-hour dial.") == (b != 0x02));
}

TEST_CASE(
    "the image's own time is written as the image counts, and by when-lost as firmware reads") {
  OldMachine machine;
  run(machine, of_a_pc(0x04, ClockPolicy::image), "w");
  CHECK(int{chip(machine, 0x0B)} == 0x04);
  CHECK(int{chip(machine, 0x04)} == 0x8C);

  OldMachine lost;
  lost.chip.bytes.fill(0xFF);
  lost.chip.bytes[0x0D] = 0x00;
  Parcel parcel = of_a_pc(0x04, ClockPolicy::keep);
  parcel.occasion = Occasion::when_lost;
  run(lost, parcel, "");
  CHECK(int{chip(lost, 0x0B)} == 0x02);
  CHECK(int{chip(lost, 0x04)} == 0x12);
  CHECK(int{chip(lost, 0x09)} == 0x94);
}

TEST_CASE("the clock of a chip that is no PC's is set as its image counts") {
  Parcel parcel = of_a_pc(0x00, ClockPolicy::ask);
  parcel.of_a_pc = false;
  OldMachine machine;
  run(machine, parcel, "w1998-10-31\n23:45\n");
  CHECK(int{chip(machine, 0x0B)} == 0x00);
  CHECK(int{chip(machine, 0x04)} == 0x91);
}

TEST_CASE("every way says in which way of counting a clock is set that its image has otherwise") {
  const auto says = [](const Parcel& parcel, Way way, std::string_view words) {
    for (const Advice& caution : deliver(parcel, way).cautions)
      if (in_plain_words(caution).find(words) != std::string::npos) return true;
    return false;
  };
  for (const Way way : all_ways()) {
    INFO(name(way));
    CHECK(says(of_a_pc(0x04, ClockPolicy::keep), way,
               "counts in BCD on a 24-hour dial, as PC firmware reads it; the image has binary on "
               "a 12-hour dial."));
    CHECK_FALSE(says(of_a_pc(0x02, ClockPolicy::keep), way, "24-hour dial"));
    CHECK_FALSE(says(of_a_pc(0x04, ClockPolicy::image), way, "24-hour dial"));
  }
  for (const Way way : {Way::boot_floppy, Way::dos_program, Way::basic_listing})
    CHECK(says(of_a_pc(0x02, ClockPolicy::ask), way,
               "The time that you type is written in BCD on a 24-hour dial"));
}

}  // namespace rtcmend::test
