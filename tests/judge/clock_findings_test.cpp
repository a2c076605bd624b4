#include <algorithm>
#include <catch2/catch.hpp>

#include "examining.h"
#include "support/sound_images.h"

using namespace rtcmend;
using Found = std::vector<std::string>;

// Registers A to D bit by bit: DS12885.

TEST_CASE("a good image of an AT-class or CRC-class machine has no findings at all") {
  CHECK(found(at_64_image()) == Found{});
  CHECK(found(crc_64_image(), "crc+slots-19") == Found{});
}

TEST_CASE("VRT = 0 in register D says that the cell was flat") {
  CHECK(findings_with({{0x0D, 0x00}}) == Found{"fault cell-flat at 0Dh"});
}

TEST_CASE("divider bits other than 010 and 11x leave the oscillator off") {
  CHECK(findings_with({{0x0A, 0x06}}) == Found{"fault oscillator-off at 0Ah"});
  CHECK(findings_with({{0x0A, 0x56}}) == Found{"fault oscillator-off at 0Ah"});
}

TEST_CASE("divider bits 000 and 001 are mentioned as time bases of the original chip") {
  // MC146818A: 4.194304 MHz and 1.048576 MHz.
  const std::string hint = "Only an original 146818";
  const Image original = with_bytes(at_64_image(), {{0x0A, 0x16}});
  const Image never = with_bytes(at_64_image(), {{0x0A, 0x36}});
  CHECK(text_of("oscillator-off", original).find(hint) != std::string::npos);
  CHECK(text_of("oscillator-off", never).find(hint) == std::string::npos);
}

TEST_CASE("divider bits 110 and 111 hold the countdown chain") {
  CHECK(findings_with({{0x0A, 0x66}}) == Found{"fault oscillator-held at 0Ah"});
  CHECK(findings_with({{0x0A, 0x76}}) == Found{"fault oscillator-held at 0Ah"});
}

TEST_CASE("UIP on is noted, and nothing worse") {
  CHECK(findings_with({{0x0A, 0xA6}}) == Found{"note updating at 0Ah"});
}

TEST_CASE("SET left on freezes the clock") {
  CHECK(findings_with({{0x0B, 0x82}}) == Found{"fault clock-frozen at 0Bh"});
}

TEST_CASE("daylight saving by the chip's own rule is doubtful") {
  CHECK(findings_with({{0x0B, 0x03}}) == Found{"doubt daylight-saving at 0Bh"});
}

TEST_CASE("bits that registers C and D always read as 0 are doubtful when they are set") {
  CHECK(findings_with({{0x0C, 0x01}}) == Found{"doubt reserved-bits-set at 0Ch"});
  CHECK(findings_with({{0x0C, 0xF0}}) == Found{});
  CHECK(findings_with({{0x0D, 0xC0}}) == Found{"doubt reserved-bits-set at 0Dh"});
}

// Date and time: DS12885 tables 2A and 2B.

// What is a fault and what a doubt follows what firmware does (measured on 64 images of real
// firmware; that power-on tests look at seconds, minutes and hours alone is from memory).

TEST_CASE("seconds, minutes or hours that no clock shows are a fault at their address") {
  CHECK(findings_with({{0x00, 0x60}}) == Found{"fault clock-byte-illegal at 00h"});
  CHECK(findings_with({{0x02, 0x7A}}) == Found{"fault clock-byte-illegal at 02h"});
  CHECK(findings_with({{0x04, 0x24}}) == Found{"fault clock-byte-illegal at 04h"});
  // 5 PM of a 12-hour dial: bit 7 is no digit of a 24-hour one.
  CHECK(findings_with({{0x04, 0x85}}) == Found{"fault clock-byte-illegal at 04h"});
}

TEST_CASE("a day, month or year that no calendar has is doubtful, and the clock must be set") {
  CHECK(findings_with({{0x07, 0x32}}) == Found{"doubt clock-date-impossible at 07h"});
  CHECK(findings_with({{0x08, 0x13}}) == Found{"doubt clock-date-impossible at 08h"});
  CHECK(findings_with({{0x09, 0x3A}}) == Found{"doubt clock-date-impossible at 09h"});
  const Examination examination =
      examine(with_bytes(at_64_image(), {{0x08, 0x13}}), layout_of("at"));
  CHECK(examination.standing.clock == Standing::Clock::unset);
  CHECK_FALSE(examination.sound);
}

TEST_CASE("hours of a 24-hour dial on a 12-hour one are doubtful: PC firmware reads them rightly") {
  // 0Bh = 00h: BCD, 12 hours (DS12885, register B). INT 1Ah AH = 02h knows no AM and PM (RBIL61).
  const Image evening = with_bytes(at_64_image(), {{0x04, 0x20}, {0x05, 0x12}, {0x0B, 0x00}});
  CHECK(found(evening) ==
        Found{"doubt clock-byte-other-mode at 04h", "doubt clock-mode-other at 0Bh"});
  CHECK(examine(evening, layout_of("at")).standing.clock == Standing::Clock::unset);
  CHECK(text_of("clock-byte-other-mode", evening) ==
        "The hours byte 20h is not legal in 12-hour mode (register B says 12-hour; it would be "
        "20:00 in 24-hour mode). PC firmware reads BCD on a 24-hour dial and finds nothing wrong; "
        "the chip does not count on from here.");
}

TEST_CASE("a 12-hour dial and binary digits are doubtful where PC firmware reads the clock") {
  // 12h in the alarm: 00h is no hour of a 12-hour dial.
  CHECK(findings_with({{0x0B, 0x00}, {0x05, 0x12}}) == Found{"doubt clock-mode-other at 0Bh"});
  CHECK(findings_with({{0x0B, 0x06}, {0x09, 0x1F}}).back() == "note weekday-wrong at 06h");
  // 30h seconds and minutes are 48 in binary; 31h is 49: of 2049-05-20.
  CHECK(findings_with({{0x0B, 0x06}}).front() == "doubt clock-mode-other at 0Bh");
  // 59h is 89 in binary, and 59 as firmware reads it.
  const Found nearly_full = findings_with({{0x0B, 0x06}, {0x02, 0x59}});
  CHECK(std::count(nearly_full.begin(), nearly_full.end(), "doubt clock-byte-other-mode at 02h") ==
        1);
  CHECK(text_of("clock-mode-other", with_bytes(at_64_image(), {{0x0B, 0x04}})) ==
        "Register B has the chip count in binary, on a 12-hour dial; PC firmware reads BCD on a "
        "24-hour dial, so it may show another time than the chip keeps.");
  CHECK(found(with_bytes(crc_64_image(), {{0x0B, 0x00}, {0x05, 0x12}}), "crc+slots-19") ==
        Found{"doubt clock-mode-other at 0Bh"});
  CHECK(found(with_bytes(at_64_image(), {{0x0B, 0x00}, {0x05, 0x12}}), "chip") ==
        Found{"note century-assumed at 09h", "note no-check"});
}

TEST_CASE("a day that its month does not have is an impossible date") {
  // 31 April; 29 February 2031, no leap year.
  CHECK(findings_with({{0x07, 0x31}, {0x08, 0x04}}) == Found{"doubt clock-date-impossible at 07h"});
  CHECK(findings_with({{0x07, 0x29}, {0x08, 0x02}}) == Found{"doubt clock-date-impossible at 07h"});
}

TEST_CASE("a weekday that is not the date's, or none, is noted: no PC firmware asks for it") {
  // INT 1Ah AH = 04h and 05h carry no weekday (RBIL61).
  CHECK(findings_with({{0x06, 0x00}}) == Found{"note weekday-wrong at 06h"});
  CHECK(examine(with_bytes(at_64_image(), {{0x06, 0x00}}), layout_of("at")).sound);

  const Image image = with_bytes(at_64_image(), {{0x06, 0x02}});
  CHECK(found(image) == Found{"note weekday-wrong at 06h"});
  // 14 May 2031 is a Wednesday by the calendar.
  CHECK(text_of("weekday-wrong", image) ==
        "The weekday byte says Monday, but 2031-05-14 is a Wednesday.");
}

TEST_CASE("an illegal alarm byte is doubtful only while the alarm is on") {
  CHECK(findings_with({{0x05, 0x7A}}) == Found{"note alarm-byte-leftover at 05h"});
  CHECK(findings_with({{0x05, 0x7A}, {0x0B, 0x22}}) == Found{"doubt alarm-byte-illegal at 05h"});
  CHECK(findings_with({{0x05, 0xFF}}) == Found{});  // C0h-FFh: don't care
}

TEST_CASE("clock bytes that a dump does not hold are noted as unknown, never judged") {
  const Image ram_only = without(at_64_image(), {0x00, 0x0D});
  CHECK(found(ram_only) == Found{"note clock-unknown at 00h, 02h, 04h, 06h-0Dh"});
}

TEST_CASE("the century must be BCD and one that PCs have seen") {
  // RBIL61 CMOS 32h: BCD.
  CHECK(findings_with({{0x32, 0x2A}}) == Found{"doubt century-illegal at 32h"});
  CHECK(findings_with({{0x32, 0x21}}) == Found{"doubt century-implausible at 32h"});
  CHECK(findings_with({{0x32, 0x20}}) == Found{});
}

TEST_CASE("a century that puts the year before the first PCs is implausible") {
  // 14 May 1931 was a Thursday, so the weekday is left out of it.
  const Image image = with_bytes(at_64_image(), {{0x32, 0x19}, {0x06, 0x05}});
  CHECK(found(image) == Found{"doubt century-implausible at 32h"});
}

TEST_CASE("without a century byte the century is assumed, and that is noted") {
  CHECK(found(at_64_image(), "chip") == Found{"note century-assumed at 09h", "note no-check"});
  CHECK(found(without(at_64_image(), {0x32, 0x32})) == Found{"note century-assumed at 09h"});
}
