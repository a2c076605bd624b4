#include "base/text.h"

#include <catch2/catch.hpp>

#include "render/words.h"
#include "terminal/columns.h"
#include "terminal/findings.h"
#include "terminal/heading.h"
#include "terminal/ink.h"

using namespace rtcmend;

TEST_CASE("ink without colour leaves text alone, and with it ends what it began") {
  CHECK(Ink(false)(Tone::bad, "FAILS") == "FAILS");
  // ECMA-48: 31 is red, 1 is bold, 0 ends both.
  CHECK(Ink(true)(Tone::bad, "FAILS") == "\x1b[1;31mFAILS\x1b[0m");
  CHECK(Ink(true)(Tone::good, "") == "");
}

TEST_CASE("hanging text keeps to its column and is safe for a terminal") {
  CHECK(hanging("one two", 4) == "one two");
  const std::string folded = hanging(std::string(40, 'a') + " " + std::string(40, 'b'), 10);
  CHECK(folded == std::string(40, 'a') + "\n          " + std::string(40, 'b'));
  CHECK(hanging("a\x1b[2J", 0) == "a\\x1B[2J");
}

TEST_CASE("a label is led by dots to the next column, unless it is too long") {
  CHECK(dotted("Display", 12) == "Display ....");
  CHECK(dotted("Display", 9) == "Display .");
  CHECK(dotted("Display", 8) == "Display");
}

TEST_CASE("numbers go with their noun") {
  CHECK(counted(0, "fault") == "no faults");
  CHECK(counted(1, "fault") == "1 fault");
  CHECK(counted(2, "fault") == "2 faults");
}

TEST_CASE("addresses are narrow in a column") {
  CHECK(narrow({0x12, 0x19}) == "12 19");
  CHECK(narrow({0x15, 0x16, 0x17}) == "15-17");
}

TEST_CASE("a verdict is a sentence about the three standings, and counts what was found") {
  const auto found = [](FindingKind kind) { return Finding{kind, {}, "text", "", ""}; };
  const auto words = [](const std::vector<Finding>& findings) {
    return verdict(standing_of(findings), findings);
  };
  CHECK(words({}) == "Sound: settings proven, clock right.");
  CHECK(words({found(FindingKind::updating), found(FindingKind::century_assumed)}) ==
        "Sound: settings proven, clock right. (2 notes)");
  CHECK(words({found(FindingKind::check_mismatch), found(FindingKind::daylight_saving)}) ==
        "Settings broken; the clock is right. (1 fault, 1 doubt)");
  CHECK(words({found(FindingKind::clock_byte_illegal)}) ==
        "Settings proven; the clock must be set. (1 fault)");
  CHECK(words({found(FindingKind::oscillator_off), found(FindingKind::no_check)}) ==
        "Settings unproven; the clock stands still and must be set. (1 fault, 1 note)");
  CHECK(words({found(FindingKind::data_bit_stuck), found(FindingKind::check_mismatch)}) ==
        "Misread: these are not the chip's bytes. Read the chip again. (2 faults)");
}

TEST_CASE("a finding says how much it weighs, where it is, and what to do") {
  const Finding finding{FindingKind::weekday_wrong,
                        {0x06, 0x32},
                        "It was a Wednesday.",
                        {{"Set the clock", Act{Act::Kind::set_clock, {}, {}}}},
                        "common practice, no source"};
  CHECK(findings_text({finding}, Ink()) ==
        "Findings\n"
        "  note     weekday-wrong at 06h, 32h\n"
        "           It was a Wednesday.\n"
        "           Do: Set the clock (\"rtcmend amend DUMP --clock now -o OUT\").\n");
  CHECK(findings_text({}, Ink()).empty());
}

TEST_CASE("a clock's words say what is missing") {
  ClockReading clock;
  CHECK(clock_words(clock) == "date and time unknown; running or not: unknown");
  clock.known = true;
  clock.running = false;
  clock.faults = {{0x02, "the minutes byte 7Ah is not BCD"}};
  CHECK(clock_words(clock) ==
        "no legal date and time: the minutes byte 7Ah is not BCD; NOT running");
  clock.faults.clear();
  clock.time = DateTime{1994, 2, 28, 23, 59, 58};
  clock.weekday = 2;
  clock.century_assumed = true;
  clock.running = true;
  CHECK(clock_words(clock) == "1994-02-28 23:59:58, Monday (century assumed); running");
}

TEST_CASE("a long name keeps its end on the tab of the card") {
  const std::string text = tab(std::string(70, 'x') + "/dump.bin", Ink());
  CHECK(text.find("-' ..." + std::string(48, 'x') + "/dump.bin '") != std::string::npos);
  CHECK(tab("a.bin", Ink()) == " .-------.\n-' a.bin '" + std::string(69, '-') + "\n");
}

TEST_CASE("every tone has its colour") {
  // ECMA-48: 1 bold, 2 faint, 31 red, 32 green, 33 yellow.
  CHECK(Ink(true)(Tone::strong, "a") == "\x1b[1ma\x1b[0m");
  CHECK(Ink(true)(Tone::good, "a") == "\x1b[32ma\x1b[0m");
  CHECK(Ink(true)(Tone::doubtful, "a") == "\x1b[33ma\x1b[0m");
  CHECK(Ink(true)(Tone::quiet, "a") == "\x1b[2ma\x1b[0m");
}

TEST_CASE("a finding without a remedy does not ask for anything") {
  const Finding finding{FindingKind::no_check, {}, "Nothing ties the bytes.", "", ""};
  CHECK(findings_text({finding}, Ink()) ==
        "Findings\n"
        "  note     no-check\n"
        "           Nothing ties the bytes.\n");
}

TEST_CASE("a clock without a known weekday or a named fault is told without them") {
  ClockReading clock;
  clock.known = true;
  clock.running = true;
  CHECK(clock_words(clock) == "no legal date and time; running");
  clock.time = DateTime{1994, 2, 28, 23, 59, 58};
  CHECK(clock_words(clock) == "1994-02-28 23:59:58; running");
}
