#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "base/error.h"
#include "deliver/old_machine.h"
#include "deliver/samples.h"
#include "deliver/slips.h"
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
    if (port == 0x70) {
      chip.selected = value & 0x7F;
      chip.nmi_masked = value & 0x80;
    } else if (port == 0x71) {
      chip.write(static_cast<std::uint8_t>(value));
    }
  };
  try {
    basic.run();
  } catch (const std::runtime_error& error) {
    basic.screen += std::string("BASIC stops: ") + error.what();
  } catch (const NobodyAnswers& waiting) {
    basic.screen += std::string("BASIC waits: ") + waiting.what();
  }
  return basic.screen;
}

std::string listing(const Parcel& parcel) {
  return deliver(parcel, Way::basic_listing).content;
}

ChipModel sound_chip() {
  return OldMachine().chip;
}

/// A century of the running clock may stay, or come with the time.
bool holds(const ChipModel& chip, const Image& wanted) {
  for (Address at = Image::ram_start; at < wanted.size(); ++at) {
    const bool kept = at == 0x32 && (chip.bytes[at] == 0x19 || chip.bytes[at] == 0x20);
    if (wanted.known(at) && chip.bytes[at] != wanted[at] && !kept) return false;
  }
  return true;
}

bool shows(const std::string& screen, std::string_view text) {
  return screen.find(text) != std::string::npos;
}

/// The listing shows the code of what the chip holds, and it is the image's.
bool claims(const std::string& screen, const Parcel& parcel) {
  return shows(screen, fmt::format("Code of what the chip holds: {:04X}.",
                                   open_code(parcel.image, parcel.hidden)));
}

}  // namespace

TEST_CASE("the BASIC listing writes 64 and 128 bytes, check bytes last") {
  const Parcel parcel = GENERATE(at_64(), at_128(), crc_64(), balance_64());
  ChipModel chip = sound_chip();
  const std::string screen = run(chip, listing(parcel), {"W"});
  INFO(screen);
  CHECK(holds(chip, parcel.image));
  CHECK(shows(screen, "All DATA lines are right. Bytes left alone: none."));
  CHECK(shows(screen, "The clock runs and is left alone: "));
  CHECK(shows(screen, "94-05-06 12:00."));
  CHECK(claims(screen, parcel));
  CHECK(chip.selected == 0x0D);
  CHECK_FALSE(chip.nmi_masked);
  CHECK(chip.bytes[0x04] == 0x12);
  const std::size_t first = parcel.image.size() == 128 ? 2 : 0;  // 0Fh is tried, and put back
  CHECK(chip.writes[first].first == parcel.checks.front().stored_at);
  CHECK(chip.writes.back().first == parcel.checks.front().stored_at);
}

TEST_CASE("the BASIC listing leaves the chip alone unless W is typed") {
  ChipModel chip = sound_chip();
  const std::string screen = run(chip, listing(at_64()), {"N"});
  CHECK(shows(screen, "Nothing was written."));
  CHECK(chip.writes.empty());
}

TEST_CASE("the BASIC listing sets the time it asks for, with weekday and century") {
  const auto [date, time, weekday, hour] = GENERATE(table<std::string, std::string, int, int>({
      {"2031-05-14", "09:30", 4, 0x09},  // Wednesday
      {"2000-02-29", "23:59", 3, 0x23},  // Tuesday
      {"1999-12-31", "00:00", 6, 0x00},  // Friday
      {"2024-01-06", "12:00", 7, 0x12},  // Saturday
  }));
  Parcel parcel = at_64();
  parcel.clock = ClockPolicy::ask;
  ChipModel chip = sound_chip();
  run(chip, listing(parcel), {"w", date, time});
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
      {"W", "1999-02-29", "1996-04-31", "1996-13-01", "1979-01-01", "today", "87-11-28",
       "1987/11/28", "1987-11-28", "24:00", "07:60", "2:30 pm", "02:30 pm", "1x:30", "17:45"});
  CHECK(chip.bytes[0x02] == 0x45);
  CHECK(chip.bytes[0x04] == 0x17);
  CHECK(chip.bytes[0x06] == 7);
  CHECK(chip.bytes[0x07] == 0x28);
  CHECK(chip.bytes[0x08] == 0x11);
  CHECK(chip.bytes[0x09] == 0x87);
}

TEST_CASE("the BASIC listing knows binary clocks and those of twelve hours") {
  const auto [b, time, hours, minutes] = GENERATE(table<int, std::string, int, int>({
      {0x06, "23:45", 0x17, 0x2D},
      {0x00, "23:45", 0x91, 0x45},
      {0x04, "00:30", 0x0C, 0x1E},
      {0x00, "12:00", 0x92, 0x00},
  }));
  Parcel parcel = at_64();
  parcel.clock = ClockPolicy::ask;
  parcel.image.set(0x0B, static_cast<std::uint8_t>(b));
  ChipModel chip = sound_chip();
  run(chip, listing(parcel), {"W", "1994-05-06", time});
  CHECK(int{chip.bytes[0x04]} == hours);
  CHECK(int{chip.bytes[0x02]} == minutes);
  CHECK(chip.bytes[0x32] == 0x19);
}

TEST_CASE("the BASIC listing sets a PC's clock in BCD of 24 hours, whatever the image counts in") {
  const auto b = GENERATE(as<std::uint8_t>(), 0x06, 0x00, 0x04);
  Parcel parcel = at_64();
  parcel.clock = ClockPolicy::ask;
  parcel.of_a_pc = true;
  parcel.image.set(0x0B, b);
  ChipModel chip = sound_chip();
  run(chip, listing(parcel), {"W", "1998-10-31", "23:45"});
  CHECK(int{chip.bytes[0x0B]} == 0x02);
  CHECK(int{chip.bytes[0x04]} == 0x23);
  CHECK(int{chip.bytes[0x02]} == 0x45);
  CHECK(int{chip.bytes[0x07]} == 0x31);
}

TEST_CASE("the BASIC listing asks for the time when the clock is not sound") {
  const auto [at, damage, why] = GENERATE(table<Address, std::uint8_t, std::string>({
      {0x0A, 0x00, "is stopped"},         // the oscillator off
      {0x0B, 0x82, "is stopped"},         // SET
      {0x0D, 0x00, "was without power"},  // no cell
      {0x07, 0x00, "holds no date"},      // no day
      {0x08, 0x00, "holds no date"},      // no month
      {0x08, 0x13, "holds no date"},      // nor a thirteenth
  }));
  ChipModel chip = sound_chip();
  chip.bytes[at] = damage;
  const std::string screen = run(chip, listing(at_64()), {"W", "1994-05-06", "14:30"});
  CHECK(shows(screen, "The clock " + why + ", so W asks for the time."));
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
      const std::string screen = run(chip, slip, {"W"});
      CHECK(chip.writes.empty());
      const auto line_start = slip.rfind('\n', at) + 1;
      CHECK(shows(screen, "Line " + slip.substr(line_start, 4) + " is mistyped."));
      ++tried;
    }
  }
  CHECK(tried > 280);
}

TEST_CASE("Enter alone at the date or the time leaves the clock, and the rest is written") {
  const std::vector<std::string> answers =
      GENERATE(std::vector<std::string>{"W", ""}, std::vector<std::string>{"W", "1994-05-06", ""});
  ChipModel chip = sound_chip();
  chip.bytes[0x0A] = 0x00;
  const std::string screen = run(chip, listing(at_64()), answers);
  CHECK(claims(screen, at_64()));
  CHECK(chip.bytes[0x0A] == 0x00);
}

TEST_CASE("a clock that runs is shown as it is, and T sets it") {
  ChipModel chip = sound_chip();
  chip.bytes[0x04] = 0x82;  // 2 pm
  chip.bytes[0x0B] = 0x00;
  chip.bytes[0x32] = 0x20;
  const std::string screen = run(chip, listing(at_64()), {"X", "T", "2031-05-14", "09:30"});
  CHECK(shows(screen, "left alone: 2094-05-06 02:00 pm."));
  CHECK(shows(screen, "Its mode is unusual (12 hours or binary): set it."));
  CHECK(chip.bytes[0x04] == 0x09);
  CHECK(chip.bytes[0x0B] == 0x02);
  CHECK(chip.bytes[0x32] == 0x20);
  CHECK(shows(screen, "The clock now says 2031-05-14 09:30."));
  CHECK(claims(screen, at_64()));
}

TEST_CASE("a century that the running clock keeps does not change the code that is shown") {
  Parcel parcel = at_64();
  ChipModel chip = sound_chip();
  chip.bytes[0x32] = 0x20;  // the image has 19h
  CHECK(claims(run(chip, listing(parcel), {"W"}), parcel));
  CHECK(chip.bytes[0x32] == 0x20);
}

TEST_CASE("a letter O in place of a zero is named") {
  std::string listing_with_o = listing(at_64());
  const auto zero = listing_with_o.find("1010 DATA 104000") + 14;
  REQUIRE(listing_with_o.substr(zero, 2) == "00");
  listing_with_o.replace(zero, 2, "OO");
  ChipModel chip = sound_chip();
  CHECK(shows(run(chip, listing_with_o, {"W"}), "Line 1010 has the letter O for a zero."));
  CHECK(chip.writes.empty());
}

TEST_CASE("a lost line of the BASIC listing writes nothing, or shows another code or an error",
          "[long]") {
  const Parcel parcel = at_64();
  const std::string right = listing(parcel);
  std::size_t lines_lost = 0;
  for (std::size_t at = 0; at < right.size(); at = right.find('\n', at) + 1, ++lines_lost) {
    std::string wrong = right;
    wrong.erase(at, right.find('\n', at) + 1 - at);
    INFO("without " << right.substr(at, right.find('\n', at) - at));
    ChipModel chip = sound_chip();
    const std::string screen = run(chip, wrong, {"W", "1994-05-06", "14:30"});
    CHECK((!claims(screen, parcel) || holds(chip, parcel.image)));
    CHECK((chip.writes.empty() || holds(chip, parcel.image) || shows(screen, "Error") ||
           shows(screen, "It must be")));
  }
  CHECK(lines_lost > 60);
}

TEST_CASE("2,000 random slips of the BASIC listing never write a wrong byte as right",
          "[long][count]") {
  const Parcel parcel = at_64();
  const std::string right = listing(parcel);
  Dice dice(28);
  std::size_t harmless = 0, written = 0, pointed = 0;
  for (std::uint32_t i = 0; i < 2000; ++i) {
    const Slip slip = random_slip(right, dice);
    ChipModel chip = sound_chip();
    for (Address at = Image::ram_start; at < 64; ++at) chip.bytes[at] = dice.byte();
    const std::string screen = run(chip, slip.text, {"W", "1994-05-06", "14:30"});
    INFO(slip.kind << " in line " << slip.line + 1 << "\n" << screen);
    if (claims(screen, parcel)) {
      CHECK(holds(chip, parcel.image));
      ++harmless;
      continue;
    }
    if (!chip.writes.empty() && !holds(chip, parcel.image)) ++written;
    std::size_t start = 0;
    for (std::size_t line = 0; line < slip.line; ++line) start = right.find('\n', start) + 1;
    const std::string number = right.substr(start, right.find(' ', start) - start);
    if (shows(screen, "ine " + number) || shows(screen, "in line " + number)) ++pointed;
  }
  CHECK(harmless == 1377);
  CHECK(written == 25);   // and shown as wrong
  CHECK(pointed == 456);  // docs/figures.md
}

TEST_CASE("a DATA line with a digit too many or too few, or left out, writes nothing") {
  const std::string right = listing(at_64());
  const auto line = right.find("1020 DATA ");
  for (const std::string& wrong :
       {std::string(right).insert(line + 15, "4"), std::string(right).erase(line + 15, 1)}) {
    ChipModel chip = sound_chip();
    CHECK(shows(run(chip, wrong, {"W"}), "Line 1020 is mistyped."));
    CHECK(chip.writes.empty());
  }
  std::string missing = right;
  missing.erase(line, right.find('\n', line) + 1 - line);
  ChipModel chip = sound_chip();
  // BASIC runs out of DATA.
  CHECK(shows(run(chip, missing, {"W"}),
              "Error 1 in line 30 : look at it, and whether a line is missing."));
  CHECK(chip.writes.empty());
}

TEST_CASE(
    "the BASIC listing lists bytes that did not take, and keeps 128 bytes from a chip of 64") {
  ChipModel guarded = sound_chip();
  guarded.writable = false;
  CHECK(shows(run(guarded, listing(at_64()), {"W"}), "10: wanted 40, found 0"));
  ChipModel half = sound_chip();
  half.half = true;
  const std::string screen = run(half, listing(at_128()), {"W"});
  CHECK(shows(screen, "This chip has 64 bytes, the image 128. Nothing was written."));
  CHECK(half.bytes[0x10] == 0x00);
}

TEST_CASE("the BASIC listing leaves unknown bytes alone and says which") {
  Parcel parcel = at_64();
  parcel.image.forget(0x20);
  ChipModel chip = sound_chip();
  chip.bytes[0x20] = 0x77;
  CHECK(shows(run(chip, listing(parcel), {"W"}), "Bytes left alone: 20h."));
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

TEST_CASE("on 40 columns the BASIC capture prints rows that fit, and that their reader takes") {
  ChipModel chip = sound_chip();
  for (Address at = 0x0E; at < 0x80; ++at) chip.bytes[at] = static_cast<std::uint8_t>(at * 37 + 11);
  SmallBasic basic(capture({}, Way::basic_listing).content);
  basic.answers = {""};
  basic.columns = 40;
  basic.on_in = [&](int port) { return port == 0x71 ? chip.read() : 0xFF; };
  basic.on_out = [&](int, int value) { chip.selected = value & 0x7F; };
  basic.run();
  const std::string rows = basic.screen.substr(basic.screen.find("00:"));
  CHECK(rows.find("\r\n") == 38);
  CHECK(read_dump(rows, "screen", Form::rows).image == chip.image(128));
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
