#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "base/text.h"
#include "deliver/delivery.h"
#include "deliver/samples.h"
#include "deliver/workplace.h"
#include "forms/form.h"
#include "support/run_program.h"

// The listings in a BASIC that is not ours: Debian's PC-BASIC, which runs what GW-BASIC runs.

namespace rtcmend::test {

namespace {

/// A chip whose clock runs, 1994-05-06 12:00, the rest of it empty.
std::string running_chip() {
  std::string chip(Image::large_size, '\0');
  chip[0x04] = 0x12;
  chip[0x06] = chip[0x07] = 0x06;
  chip[0x08] = 0x05;
  chip[0x09] = static_cast<char>(0x94);
  chip[0x0A] = 0x26;
  chip[0x0B] = 0x02;
  chip[0x0D] = static_cast<char>(0x80);
  return chip;
}

struct Outcome {
  std::string screen;
  std::string chip;
};

/// Types a listing in, runs it on a chip and answers its questions with lines.
Outcome run(const std::string& listing, const std::string& chip,
            const std::vector<std::string>& answers) {
  const Workplace workplace;
  std::string keys;
  for (const std::string& answer : answers) keys += answer + "\n";
  Start start;
  start.program = "/usr/bin/env";
  start.arguments = {"timeout",
                     "100",
                     "/usr/bin/python3",
                     std::string(RTCMEND_SOURCE_DIR) + "/tests/deliver/basic_machine.py",
                     workplace.put("LISTING.BAS", listing),
                     workplace.put("chip.bin", chip),
                     workplace.put("keys.txt", keys)};
  start.folder = workplace.path("");
  const Ran ran = run_program(start);
  if (ran.err.find("No module named 'pcbasic'") != std::string::npos)
    FAIL("this test needs PC-BASIC: install the package python3-pcbasic");
  INFO(ran.err);
  CHECK(ran.code == 0);
  return {ran.out, workplace.get("chip.bin")};
}

std::string listing(const Parcel& parcel) {
  return deliver(parcel, Way::basic_listing).content;
}

/// Addresses of RAM bytes that the chip does not hold as the image has them.
Addresses differing(const Image& wanted, const std::string& chip) {
  Addresses differ;
  for (Address at = Image::ram_start; at < wanted.size(); ++at)
    if (wanted[at] != static_cast<std::uint8_t>(chip.at(at))) differ.push_back(at);
  return differ;
}

bool shows(const Outcome& outcome, std::string_view text) {
  return outcome.screen.find(text) != std::string::npos;
}

int byte(const Outcome& outcome, Address at) {
  return static_cast<unsigned char>(outcome.chip.at(at));
}

}  // namespace

TEST_CASE("a BASIC that is not ours runs the listing and writes the image, check bytes last",
          "[long]") {
  const Parcel parcel = GENERATE(at_64(), at_128(), crc_64(), balance_64());
  const Outcome outcome = run(listing(parcel), running_chip(), {"W"});
  INFO(outcome.screen);
  CHECK(shows(outcome, "All DATA lines are right."));
  CHECK(shows(outcome, fmt::format("Code of what the chip holds: {:04X}.",
                                   open_code(parcel.image, parcel.hidden))));
  CHECK(differing(parcel.image, outcome.chip) == Addresses{});
  CHECK(byte(outcome, 0x04) == 0x12);  // the clock was left alone
  CHECK(trim(outcome.screen).ends_with(hex2(parcel.checks.front().stored_at)));
}

TEST_CASE("a BASIC that is not ours computes the weekday, and refuses dates that do not exist",
          "[long]") {
  Parcel parcel = at_64();
  parcel.clock = ClockPolicy::ask;
  const Outcome outcome = run(listing(parcel), running_chip(),
                              {"W", "1999-02-29", "2024-12-25", "24:00", "2:30 pm", "14:30"});
  INFO(outcome.screen);
  CHECK(byte(outcome, 0x02) == 0x30);
  CHECK(byte(outcome, 0x04) == 0x14);
  CHECK(byte(outcome, 0x06) == 4);  // Wednesday
  CHECK(byte(outcome, 0x07) == 0x25);
  CHECK(byte(outcome, 0x08) == 0x12);
  CHECK(byte(outcome, 0x09) == 0x24);
  CHECK(byte(outcome, 0x32) == 0x20);
}

TEST_CASE("a BASIC that is not ours finds the mistyped DATA line and writes nothing", "[long]") {
  std::string wrong = listing(at_64());
  const auto digit = wrong.find("1020 DATA ") + 15;
  wrong[digit] = wrong[digit] == '4' ? '5' : '4';
  const Outcome outcome = run(wrong, running_chip(), {"W"});
  CHECK(shows(outcome, "Line 1020 is mistyped. Nothing was written."));
  CHECK(outcome.chip == running_chip());
}

TEST_CASE("a BASIC that is not ours stops at a missing line, and names where", "[long]") {
  std::string wrong = listing(at_64());
  const auto line = wrong.find("60 B = VAL");
  wrong.erase(line, wrong.find('\n', line) + 1 - line);
  const Outcome outcome = run(wrong, running_chip(), {"W"});
  INFO(outcome.screen);
  CHECK(shows(outcome, "Nothing was written."));
  CHECK(outcome.chip == running_chip());
  std::string unending = listing(at_64());
  unending.replace(unending.find("240 IF T = 1"), 12, "240 IF T = 1(");
  const Outcome stopped = run(unending, running_chip(), {"W"});
  INFO(stopped.screen);
  CHECK(shows(stopped, "in line 240"));
}

TEST_CASE("a BASIC that is not ours prints rows that read back as the chip", "[long]") {
  std::string chip = running_chip();
  for (std::size_t at = 0x0E; at < chip.size(); ++at) chip[at] = static_cast<char>(at * 37 + 11);
  const Outcome outcome = run(capture({}, Way::basic_listing).content, chip, {""});
  std::string rows;
  for (const std::string_view line : lines(outcome.screen))
    if (line.find(" =") != std::string_view::npos) rows += std::string(trim(line)) + "\n";
  const Image seen = read_dump(rows, "rows", Form::rows).image;
  CHECK(seen.size() == 128);
  CHECK(differing(seen, chip) == Addresses{});
}

}  // namespace rtcmend::test
