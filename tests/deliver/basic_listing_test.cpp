#include <catch2/catch.hpp>

#include "base/error.h"
#include "deliver/old_machine.h"
#include "deliver/samples.h"
#include "deliver/small_basic.h"
#include "forms/form.h"

namespace rtcmend::test {

namespace {

/// Runs a listing on a chip, the answers typed; returns the screen.
std::string run(ChipModel& chip, const std::string& listing,
                const std::vector<std::string>& answers) {
  SmallBasic basic(listing);
  basic.answers = answers;
  basic.on_in = [&](int port) { return port == 0x71 ? chip.read() : 0xFF; };
  basic.on_out = [&](int port, int value) {
    REQUIRE((value >= 0 && value <= 0xFF));  // BASIC refuses other values
    if (port == 0x70) {
      chip.selected = value & 0x7F;
      chip.nmi_masked = value & 0x80;
    } else {
      REQUIRE(port == 0x71);
      chip.write(static_cast<std::uint8_t>(value));
    }
  };
  basic.run();
  return basic.screen;
}

std::string listing(const Parcel& parcel) {
  return deliver(parcel, Way::basic_listing).content;
}

ChipModel sound_chip() {
  return OldMachine().chip;
}

bool holds(const ChipModel& chip, const Image& wanted) {
  for (Address at = Image::ram_start; at < wanted.size(); ++at)
    if (wanted.known(at) && chip.bytes[at] != wanted[at]) return false;
  return true;
}

bool shows(const std::string& screen, std::string_view text) {
  return screen.find(text) != std::string::npos;
}

}  // namespace

TEST_CASE("the BASIC listing writes 64 and 128 bytes, check bytes last") {
  const Parcel parcel = GENERATE(at_64(), at_128(), crc_64());
  ChipModel chip = sound_chip();
  const std::string screen = run(chip, listing(parcel), {"", "W"});
  INFO(screen);
  CHECK(holds(chip, parcel.image));
  CHECK(shows(screen, "All DATA lines are right. Bytes left alone: none."));
  CHECK(shows(screen, "The clock says 94-5-6 12:0"));
  CHECK(shows(screen, "Every byte reads back as it was written."));
  CHECK(chip.selected == 0x0D);
  CHECK_FALSE(chip.nmi_masked);
  CHECK(chip.bytes[0x04] == 0x12);
  CHECK(chip.writes.back().first == parcel.checks.back().stored_at + 1);
}

TEST_CASE("the BASIC listing leaves the chip alone unless W is typed") {
  ChipModel chip = sound_chip();
  const std::string screen = run(chip, listing(at_64()), {"", "N"});
  CHECK(shows(screen, "Nothing was written."));
  CHECK(chip.writes.empty());
}

TEST_CASE("the BASIC listing sets the time it asks for, with weekday and century") {
  const auto [date, time, weekday, hour] = GENERATE(table<std::string, std::string, int, int>({
      {"2031,5,14", "9,30", 4, 0x09},   // Wednesday
      {"2000,2,29", "23,59", 3, 0x23},  // Tuesday
      {"1999,12,31", "0,0", 6, 0x00},   // Friday
      {"2024,1,6", "12,0", 7, 0x12},    // Saturday
  }));
  Parcel parcel = at_64();
  parcel.clock = ClockPolicy::ask;
  ChipModel chip = sound_chip();
  run(chip, listing(parcel), {date, time, "w"});
  CHECK(int{chip.bytes[0x06]} == weekday);
  CHECK(int{chip.bytes[0x04]} == hour);
  CHECK(chip.bytes[0x32] == (date[0] == '2' ? 0x20 : 0x19));
  CHECK(chip.bytes[0x0A] == 0x26);
  CHECK(chip.bytes[0x0B] == 0x02);
  CHECK(chip.writes.front() == std::pair<Address, std::uint8_t>{0x0B, 0x82});
}

TEST_CASE("the BASIC listing writes dates in BCD and asks again for ones that do not exist") {
  Parcel parcel = at_64();
  parcel.clock = ClockPolicy::ask;
  ChipModel chip = sound_chip();
  run(chip, listing(parcel),
      {"1999,2,29", "1996,4,31", "1996,13,1", "1979,1,1", "1987,11,28", "24,0", "7,60", "17,45",
       "W"});
  CHECK(chip.bytes[0x02] == 0x45);
  CHECK(chip.bytes[0x04] == 0x17);
  CHECK(chip.bytes[0x06] == 7);
  CHECK(chip.bytes[0x07] == 0x28);
  CHECK(chip.bytes[0x08] == 0x11);
  CHECK(chip.bytes[0x09] == 0x87);
}

TEST_CASE("the BASIC listing knows binary clocks and those of twelve hours") {
  const auto [b, time, hours, minutes] = GENERATE(table<int, std::string, int, int>({
      {0x06, "23,45", 0x17, 0x2D},
      {0x00, "23,45", 0x91, 0x45},
      {0x04, "0,30", 0x0C, 0x1E},
      {0x00, "12,0", 0x92, 0x00},
  }));
  Parcel parcel = at_64();
  parcel.clock = ClockPolicy::ask;
  parcel.image.set(0x0B, static_cast<std::uint8_t>(b));
  ChipModel chip = sound_chip();
  run(chip, listing(parcel), {"1994,5,6", time, "W"});
  CHECK(int{chip.bytes[0x04]} == hours);
  CHECK(int{chip.bytes[0x02]} == minutes);
  CHECK(chip.bytes[0x32] == 0x19);
}

TEST_CASE("the BASIC listing asks for the time when the clock is not sound") {
  const auto [at, damage] = GENERATE(table<Address, std::uint8_t>({
      {0x0A, 0x00},  // the oscillator off
      {0x0B, 0x82},  // SET
      {0x0D, 0x00},  // no cell
      {0x07, 0x00},  // no day
      {0x08, 0x00},  // no month
      {0x08, 0x13},  // nor a thirteenth
  }));
  ChipModel chip = sound_chip();
  chip.bytes[at] = damage;
  run(chip, listing(at_64()), {"1994,5,6", "14,30", "W"});
  CHECK(chip.bytes[0x04] == 0x14);
  CHECK(chip.bytes[0x0A] == 0x26);
}

TEST_CASE("the BASIC listing can write the image's time") {
  Parcel parcel = at_64();
  parcel.clock = ClockPolicy::image;
  parcel.image.set(0x04, 0x21);
  ChipModel chip = sound_chip();
  run(chip, listing(parcel), {"W"});
  CHECK(chip.bytes[0x04] == 0x21);
}

TEST_CASE("every mistyped DATA digit of the BASIC listing is named, and nothing is written") {
  const std::string right = listing(at_64());
  const auto data = right.find("1000 DATA ");
  REQUIRE(data != std::string::npos);
  std::size_t tried = 0;
  for (std::size_t at = data; at < right.size(); ++at) {
    const bool in_digits =
        right.rfind("DATA ", at) + 4 < at && right.rfind('\n', at) < right.rfind("DATA ", at);
    if (!in_digits || right[at] == '\r' || right[at] == '\n') continue;
    for (const char wrong : {'8', '3'}) {
      if (right[at] == wrong) continue;
      std::string slip = right;
      slip[at] = wrong;
      INFO("position " << at << ": " << right[at] << " became " << wrong);
      ChipModel chip = sound_chip();
      const std::string screen = run(chip, slip, {"", "W"});
      CHECK(chip.writes.empty());
      const auto line_start = slip.rfind('\n', at) + 1;
      CHECK(shows(screen, "Line " + slip.substr(line_start, 4) + " is mistyped."));
      ++tried;
    }
  }
  CHECK(tried > 280);
}

TEST_CASE("a letter O in place of a zero does no harm in a DATA line") {
  std::string listing_with_o = listing(at_64());
  const auto zero = listing_with_o.find("1010 DATA 104000") + 14;
  REQUIRE(listing_with_o.substr(zero, 2) == "00");
  listing_with_o.replace(zero, 2, "OO");
  ChipModel chip = sound_chip();
  run(chip, listing_with_o, {"", "W"});
  CHECK(holds(chip, at_64().image));
}

TEST_CASE("a DATA line with a digit too many or too few, or left out, writes nothing") {
  const std::string right = listing(at_64());
  const auto line = right.find("1020 DATA ");
  for (const std::string& wrong :
       {std::string(right).insert(line + 15, "4"), std::string(right).erase(line + 15, 1)}) {
    ChipModel chip = sound_chip();
    CHECK(shows(run(chip, wrong, {"", "W"}), "Line 1020 is mistyped."));
    CHECK(chip.writes.empty());
  }
  std::string missing = right;
  missing.erase(line, right.find('\n', line) + 1 - line);
  ChipModel chip = sound_chip();
  CHECK_THROWS(run(chip, missing, {"", "W"}));  // BASIC runs out of DATA
  CHECK(chip.writes.empty());
}

TEST_CASE(
    "the BASIC listing lists bytes that did not take, and keeps 128 bytes from a chip of 64") {
  ChipModel guarded = sound_chip();
  guarded.writable = false;
  CHECK(shows(run(guarded, listing(at_64()), {"", "W"}), "10: wanted 40, found 0"));
  ChipModel half = sound_chip();
  half.half = true;
  const std::string screen = run(half, listing(at_128()), {"", "W"});
  CHECK(shows(screen, "This chip has 64 bytes, the image 128. Nothing was written."));
  CHECK(half.bytes[0x10] == 0x00);
}

TEST_CASE("the BASIC listing leaves unknown bytes alone and says which") {
  Parcel parcel = at_64();
  parcel.image.forget(0x20);
  ChipModel chip = sound_chip();
  chip.bytes[0x20] = 0x77;
  CHECK(shows(run(chip, listing(parcel), {"", "W"}), "Bytes left alone: 20h."));
  CHECK(chip.bytes[0x20] == 0x77);
  CHECK(holds(chip, parcel.image));
}

TEST_CASE("the rows that the BASIC capture prints read back as the chip") {
  ChipModel chip = sound_chip();
  for (Address at = 0x0E; at < 0x80; ++at) chip.bytes[at] = static_cast<std::uint8_t>(at * 37 + 11);
  const std::string listing = capture({}, Way::basic_listing).content;
  SmallBasic basic(listing);
  basic.answers = {"ROWS.TXT"};
  basic.on_in = [&](int port) { return port == 0x71 ? chip.read() : 0xFF; };
  basic.on_out = [&](int port, int value) {
    REQUIRE(port == 0x70);
    chip.selected = value & 0x7F;
  };
  basic.run();
  const Dump dump = read_dump(basic.files["ROWS.TXT"], "ROWS.TXT", Form::rows);
  CHECK(dump.image == chip.image(128));
  CHECK(shows(basic.screen, basic.files["ROWS.TXT"]));
}

TEST_CASE("the BASIC capture sees that a chip has 64 bytes") {
  ChipModel chip = sound_chip();
  chip.half = true;
  chip.bytes[0x20] = 0x55;
  const std::string screen = run(chip, capture({}, Way::basic_listing).content, {""});
  const auto first = screen.find("00: ");
  REQUIRE(first != std::string::npos);
  CHECK(read_dump(screen.substr(first), "screen", Form::rows).image == chip.image(64));
}

}  // namespace rtcmend::test
