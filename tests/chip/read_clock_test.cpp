#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "chip/clock.h"
#include "chip/clock_images.h"

using namespace rtcmend;

namespace {

std::string only_fault(const ClockReading& reading) {
  return reading.faults.size() == 1 ? reading.faults[0].what
                                    : std::to_string(reading.faults.size()) + " faults";
}

// How many of the 256 values of one byte leave a usual clock without a fault.
int legal_values(Address at, std::uint8_t register_b) {
  Image image = usual_clock();
  const ClockMode mode{(register_b & 0x04) != 0, (register_b & 0x02) != 0};
  write_clock({2031, 1, 1, 9, 30, 0}, mode, image);
  image.set(0x0B, register_b);
  int legal = 0;
  for (int byte = 0; byte < 256; ++byte) {
    image.set(at, static_cast<std::uint8_t>(byte));
    if (read_clock(image, 20).faults.empty()) ++legal;
  }
  return legal;
}

}  // namespace

TEST_CASE("the data sheet's example reads 5:58:21 on Thursday 15 February 1979 in BCD") {
  // MC146818A, worked example, from memory.
  const Image image = clock_image({0x21, 0, 0x58, 0, 0x05, 0, 0x05, 0x15, 0x02, 0x79, 0x26, 0x00});
  const ClockReading reading = read_clock(image, 19);
  CHECK(reading.time == DateTime{1979, 2, 15, 5, 58, 21});
  CHECK(reading.weekday == 5);
  CHECK(reading.mode == ClockMode{false, false});
  CHECK(reading.faults.empty());
}

TEST_CASE("the data sheet's example reads the same in binary") {
  // MC146818A, worked example, from memory.
  const Image image = clock_image({0x15, 0, 0x3A, 0, 0x05, 0, 0x05, 0x0F, 0x02, 0x4F, 0x26, 0x04});
  const ClockReading reading = read_clock(image, 19);
  CHECK(reading.time == DateTime{1979, 2, 15, 5, 58, 21});
  CHECK(reading.weekday == 5);
  CHECK(reading.mode == ClockMode{true, false});
  CHECK(reading.faults.empty());
}

TEST_CASE("a usual clock reads known, running and without faults") {
  const ClockReading reading = read_clock(usual_clock(), 20);
  CHECK(reading.known);
  CHECK(reading.time == DateTime{2031, 5, 14, 9, 30, 0});
  CHECK(reading.weekday == 4);
  CHECK(reading.mode == ClockMode{false, true});
  CHECK_FALSE(reading.century_assumed);
  CHECK(reading.running == true);
  CHECK(reading.faults.empty());
  CHECK(reading.alarm_faults.empty());
}

TEST_CASE("each byte has as many legal values as the data sheet's ranges (DS12885 2A, 2B)") {
  for (const std::uint8_t register_b : std::vector<std::uint8_t>{0x00, 0x02, 0x04, 0x06}) {
    INFO("register B " << static_cast<int>(register_b));
    CHECK(legal_values(0x00, register_b) == 60);
    CHECK(legal_values(0x02, register_b) == 60);
    CHECK(legal_values(0x04, register_b) == 24);
    CHECK(legal_values(0x06, register_b) == 7);
    CHECK(legal_values(0x07, register_b) == 31);
    CHECK(legal_values(0x08, register_b) == 12);
    CHECK(legal_values(0x09, register_b) == 100);
  }
}

TEST_CASE("in 12-hour mode bit 7 of the hours means PM and 12 comes before 1 (DS12885)") {
  const auto hour = [](std::uint8_t register_b, std::uint8_t byte) {
    Image image = usual_clock_with(0x0B, register_b);
    image.set(0x07, 0x01);
    image.set(0x04, byte);
    image.set(0x02, 0x10);
    image.set(0x09, 0x10);
    return read_clock(image, 20).time.value_or(DateTime{0, 0, 0, -1, 0, 0}).hour;
  };
  CHECK(hour(0x00, 0x12) == 0);
  CHECK(hour(0x00, 0x01) == 1);
  CHECK(hour(0x00, 0x11) == 11);
  CHECK(hour(0x00, 0x92) == 12);
  CHECK(hour(0x00, 0x81) == 13);
  CHECK(hour(0x00, 0x91) == 23);
  CHECK(hour(0x04, 0x0C) == 0);
  CHECK(hour(0x04, 0x0B) == 11);
  CHECK(hour(0x04, 0x8C) == 12);
  CHECK(hour(0x04, 0x8B) == 23);
  CHECK(hour(0x06, 0x17) == 23);
  CHECK(hour(0x02, 0x23) == 23);
}

TEST_CASE("an illegal byte is named in words") {
  CHECK(only_fault(read_clock(usual_clock_with(0x02, 0x7A), 20)) ==
        "the minutes byte 7Ah is not BCD");
  CHECK(only_fault(read_clock(usual_clock_with(0x00, 0x75), 20)) ==
        "the seconds byte 75h means 75, which is not between 0 and 59");
  CHECK(only_fault(read_clock(usual_clock_with(0x08, 0x00), 20)) ==
        "the month byte 00h means 0, which is not between 1 and 12");
  CHECK(only_fault(read_clock(usual_clock_with(0x06, 0x00), 20)) ==
        "the weekday byte 00h means 0, which is not between 1 and 7");
  CHECK(read_clock(usual_clock_with(0x02, 0x7A), 20).faults[0].at == 0x02);
  CHECK_FALSE(read_clock(usual_clock_with(0x02, 0x7A), 20).time);
}

TEST_CASE("a date that does not exist is named") {
  Image image = usual_clock_with(0x07, 0x31);
  image.set(0x08, 0x04);
  const ClockReading reading = read_clock(image, 20);
  CHECK(only_fault(reading) == "the day 31 does not exist in 2031-04");
  CHECK(reading.faults[0].at == 0x07);
  CHECK_FALSE(reading.time);
}

TEST_CASE("29 February depends on the century where the year is 00") {
  Image image = usual_clock_with(0x07, 0x29);
  image.set(0x08, 0x02);
  image.set(0x09, 0x00);
  CHECK(read_clock(image, 20).time == DateTime{2000, 2, 29, 9, 30, 0});
  CHECK(only_fault(read_clock(image, 19)) == "the day 29 does not exist in 1900-02");
}

TEST_CASE("hours that are legal only in the other mode are told both ways") {
  // Common practice, no source: some firmware leaves register B at 12-hour and ignores it.
  Image twelve = usual_clock_with(0x0B, 0x00);
  twelve.set(0x04, 0x16);
  CHECK(
      only_fault(read_clock(twelve, 20)) ==
      "the hours byte 16h is not legal in 12-hour mode (register B says 12-hour; it would be 16:00 "
      "in 24-hour mode)");
  CHECK_FALSE(read_clock(twelve, 20).time);
  CHECK(
      only_fault(read_clock(usual_clock_with(0x04, 0x92), 20)) ==
      "the hours byte 92h is not legal in 24-hour mode (register B says 24-hour; it would be 12 PM "
      "in 12-hour mode)");
  CHECK(
      only_fault(read_clock(usual_clock_with(0x04, 0x81), 20)) ==
      "the hours byte 81h is not legal in 24-hour mode (register B says 24-hour; it would be 1 PM "
      "in 12-hour mode)");
  CHECK(only_fault(read_clock(usual_clock_with(0x04, 0x3F), 20)) ==
        "the hours byte 3Fh is not BCD");
  CHECK(only_fault(read_clock(usual_clock_with(0x04, 0x24), 20)) ==
        "the hours byte 24h is not legal in 12-hour or 24-hour mode");
}

TEST_CASE("an illegal weekday leaves date and time readable, and a wrong one is told as stored") {
  const ClockReading illegal = read_clock(usual_clock_with(0x06, 0x09), 20);
  CHECK_FALSE(illegal.weekday);
  CHECK(illegal.time == DateTime{2031, 5, 14, 9, 30, 0});
  CHECK(read_clock(usual_clock_with(0x06, 0x02), 20).weekday == 2);
}

TEST_CASE("without a century byte 80-99 are taken as 19xx and 00-79 as 20xx") {
  const auto year = [](std::uint8_t byte) {
    const ClockReading reading = read_clock(usual_clock_with(0x09, byte), std::nullopt);
    return reading.century_assumed && reading.time ? reading.time->year : -1;
  };
  CHECK(year(0x80) == 1980);
  CHECK(year(0x99) == 1999);
  CHECK(year(0x00) == 2000);
  CHECK(year(0x79) == 2079);
}

TEST_CASE("unknown bytes give no values and no faults") {
  const ClockReading reading = read_clock(Image(std::size_t{128}), 20);
  CHECK_FALSE(reading.known);
  CHECK_FALSE(reading.mode);
  CHECK_FALSE(reading.time);
  CHECK_FALSE(reading.weekday);
  CHECK_FALSE(reading.century_assumed);
  CHECK_FALSE(reading.running);
  CHECK(reading.faults.empty());
  CHECK(reading.alarm_faults.empty());
  CHECK(describe_alarm(reading) == "unknown");
}

TEST_CASE("one unknown byte of date and time leaves the time unknown but faults elsewhere named") {
  for (const Address at : Addresses{0x00, 0x02, 0x04, 0x07, 0x08, 0x09}) {
    Image image = usual_clock_with(0x06, 0x08);
    image.forget(at);
    const ClockReading reading = read_clock(image, 20);
    INFO("without " << static_cast<int>(at));
    CHECK_FALSE(reading.known);
    CHECK_FALSE(reading.time);
    CHECK(reading.faults.size() == 1);
  }
}

TEST_CASE("without register B the bytes are known but mean nothing yet") {
  Image image = usual_clock_with(0x02, 0x7A);
  image.forget(0x0B);
  const ClockReading reading = read_clock(image, 20);
  CHECK(reading.known);
  CHECK_FALSE(reading.mode);
  CHECK_FALSE(reading.time);
  CHECK(reading.faults.empty());
  CHECK_FALSE(reading.running);
}

TEST_CASE("the clock runs when it counts and SET is off") {
  CHECK(read_clock(usual_clock_with(0x0A, 0xA6), 20).running == true);
  CHECK(read_clock(usual_clock_with(0x0A, 0x06), 20).running == false);
  CHECK(read_clock(usual_clock_with(0x0A, 0x76), 20).running == false);
  CHECK(read_clock(usual_clock_with(0x0B, 0x82), 20).running == false);
  Image without_a = usual_clock();
  without_a.forget(0x0A);
  CHECK_FALSE(read_clock(without_a, 20).running);
}

TEST_CASE("a dead clock full of FF or 99 is read to the end") {
  // Common practice, no source: period firmware leaves such clocks behind.
  const ClockReading ff = read_clock(Image(std::vector<std::uint8_t>(64, 0xFF)), 20);
  CHECK(ff.known);
  CHECK_FALSE(ff.time);
  CHECK(ff.faults.size() == 7);
  CHECK(describe_alarm(ff) == "every second");

  const ClockReading nines = read_clock(Image(std::vector<std::uint8_t>(64, 0x99)), 20);
  CHECK_FALSE(nines.time);
  CHECK(nines.faults.size() == 6);  // 99 is a year
}

TEST_CASE("an alarm byte out of range is a fault of the alarm, not of the time") {
  const ClockReading reading = read_clock(usual_clock_with(0x03, 0x7A), 20);
  CHECK(reading.faults.empty());
  CHECK(reading.time);
  REQUIRE(reading.alarm_faults.size() == 1);
  CHECK(reading.alarm_faults[0].at == 0x03);
  CHECK(reading.alarm_faults[0].what == "the minutes alarm byte 7Ah is not BCD");
  CHECK(describe_alarm(reading) == "not legal");
}
