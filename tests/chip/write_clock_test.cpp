#include <catch2/catch.hpp>
#include <optional>
#include <vector>

#include "chip/clock.h"
#include "chip/clock_images.h"

using namespace rtcmend;

namespace {

constexpr ClockMode bcd_24{false, true}, bcd_12{false, false}, binary_24{true, true},
    binary_12{true, false};

// The bytes of time and date without the alarms: 00 02 04 06 07 08 09.
std::vector<int> written(const DateTime& time, const ClockMode& mode) {
  Image image(std::size_t{64});
  write_clock(time, mode, image);
  std::vector<int> bytes;
  for (const Address at : Addresses{0x00, 0x02, 0x04, 0x06, 0x07, 0x08, 0x09})
    bytes.push_back(image.at(at).value_or(0));
  return bytes;
}

std::uint8_t register_b(const ClockMode& mode) {
  return static_cast<std::uint8_t>((mode.binary ? 0x04 : 0) | (mode.hours_24 ? 0x02 : 0));
}

// Writes and reads every second of a stretch; the first that comes back different, or nothing.
std::optional<DateTime> first_loss(const DateTime& from, const DateTime& to,
                                   const ClockMode& mode) {
  Image image = usual_clock_with(0x0B, register_b(mode));
  for (auto at = seconds_since_1980(from); at <= seconds_since_1980(to); ++at) {
    const DateTime time = from_seconds_since_1980(at);
    write_clock(time, mode, image);
    const ClockReading reading = read_clock(image, time.year / 100);
    const bool same = reading.time == time && reading.faults.empty() &&
                      reading.weekday == weekday_of(time.year, time.month, time.day);
    if (!same) return time;
  }
  return std::nullopt;
}

}  // namespace

TEST_CASE("the data sheet's time of day is written as it prints it") {
  // MC146818A, worked example, from memory, moved to 2007 when 15 February was a Thursday as well.
  CHECK(written({2007, 2, 15, 5, 58, 21}, bcd_24) ==
        std::vector<int>{0x21, 0x58, 0x05, 0x05, 0x15, 0x02, 0x07});
  CHECK(written({2007, 2, 15, 5, 58, 21}, binary_24) ==
        std::vector<int>{0x15, 0x3A, 0x05, 0x05, 0x0F, 0x02, 0x07});
}

TEST_CASE("the last second of 2099 is written in four ways (DS12885 2A, 2B)") {
  const DateTime last{2099, 12, 31, 23, 59, 59};
  CHECK(written(last, bcd_24) == std::vector<int>{0x59, 0x59, 0x23, 0x05, 0x31, 0x12, 0x99});
  CHECK(written(last, bcd_12) == std::vector<int>{0x59, 0x59, 0x91, 0x05, 0x31, 0x12, 0x99});
  CHECK(written(last, binary_24) == std::vector<int>{0x3B, 0x3B, 0x17, 0x05, 0x1F, 0x0C, 0x63});
  CHECK(written(last, binary_12) == std::vector<int>{0x3B, 0x3B, 0x8B, 0x05, 0x1F, 0x0C, 0x63});
}

TEST_CASE("midnight is 12 AM and noon is 12 PM (DS12885 2A, 2B)") {
  CHECK(written({2000, 1, 1, 0, 0, 0}, bcd_12)[2] == 0x12);
  CHECK(written({2000, 1, 1, 12, 0, 0}, bcd_12)[2] == 0x92);
  CHECK(written({2000, 1, 1, 13, 0, 0}, bcd_12)[2] == 0x81);
  CHECK(written({2000, 1, 1, 0, 0, 0}, binary_12)[2] == 0x0C);
  CHECK(written({2000, 1, 1, 12, 0, 0}, binary_12)[2] == 0x8C);
  CHECK(written({2000, 1, 1, 0, 0, 0}, bcd_24)[2] == 0x00);
}

TEST_CASE("every second written is read back, in all four modes") {
  for (const ClockMode& mode : {bcd_24, bcd_12, binary_24, binary_12}) {
    INFO("binary " << mode.binary << ", 24 hours " << mode.hours_24);
    // Into and out of the leap day of 2000 and of 2096, the last before 2100.
    CHECK_FALSE(first_loss({2000, 2, 28, 23, 55, 0}, {2000, 2, 29, 0, 5, 0}, mode));
    CHECK_FALSE(first_loss({2000, 2, 29, 23, 55, 0}, {2000, 3, 1, 0, 5, 0}, mode));
    CHECK_FALSE(first_loss({2096, 2, 28, 23, 55, 0}, {2096, 2, 29, 0, 5, 0}, mode));
    CHECK_FALSE(first_loss({2096, 2, 29, 23, 55, 0}, {2096, 3, 1, 0, 5, 0}, mode));
    CHECK_FALSE(first_loss({1999, 12, 31, 23, 55, 0}, {2000, 1, 1, 0, 5, 0}, mode));
    CHECK_FALSE(first_loss({2099, 12, 31, 0, 0, 0}, {2099, 12, 31, 23, 59, 59}, mode));
  }
}

TEST_CASE("writing the clock touches neither alarms nor registers nor RAM") {
  Image image(std::size_t{64});
  write_clock({2031, 5, 14, 9, 30, 0}, bcd_24, image);
  for (const Address at : Addresses{0x01, 0x03, 0x05, 0x0A, 0x0B, 0x0C, 0x0D, 0x0E, 0x32})
    CHECK_FALSE(image.known(at));
}

TEST_CASE("starting an unknown clock gives the usual registers (common practice, no source)") {
  Image image(std::size_t{64});
  start_clock({2031, 5, 14, 9, 30, 0}, ClockMode{}, image);
  const std::vector<int> expected{0x00, 0x00, 0x30, 0x00, 0x09, 0x00,
                                  0x04, 0x14, 0x05, 0x31, 0x26, 0x02};
  for (std::size_t at = 0; at < expected.size(); ++at)
    CHECK(image.at(static_cast<Address>(at)) == expected[at]);
  CHECK_FALSE(image.known(0x0C));
  CHECK_FALSE(image.known(0x0D));
  CHECK(read_clock(image, 20).running == true);
}

TEST_CASE("starting a stopped clock in its own mode keeps its rate, interrupts and alarms") {
  Image image = usual_clock_with(0x0A, 0xFA);
  image.set(0x0B, 0xA5);  // SET, alarm interrupt, binary, 12-hour, daylight saving
  image.set(0x01, 0xFF);
  start_clock({2031, 5, 14, 21, 30, 0}, {true, false}, image);
  CHECK(image.at(0x0A) == 0x2A);
  CHECK(image.at(0x0B) == 0x25);
  CHECK(image.at(0x01) == 0xFF);
  CHECK(image.at(0x02) == 0x1E);
  CHECK(image.at(0x04) == 0x89);
}

TEST_CASE(
    "starting the clock in another mode takes the alarm along, but for its don't-care bytes") {
  Image image = usual_clock_with(0x0A, 0x26);
  image.set(0x0B, 0x20);  // alarm interrupt, BCD, 12-hour
  image.set(0x01, 0xC0);  // any second (DS12885)
  image.set(0x03, 0x45);
  image.set(0x05, 0x87);  // 7 PM
  start_clock({2031, 5, 14, 20, 30, 0}, ClockMode{}, image);
  CHECK(image.at(0x0B) == 0x22);
  CHECK(image.at(0x01) == 0xC0);
  CHECK(image.at(0x03) == 0x45);
  CHECK(image.at(0x05) == 0x19);
  CHECK(image.at(0x04) == 0x20);
}

TEST_CASE("time, date and weekday tick, alarms and registers do not") {
  for (const Address at : Addresses{0x00, 0x02, 0x04, 0x06, 0x07, 0x08, 0x09}) CHECK(ticks(at));
  for (const Address at : Addresses{0x01, 0x03, 0x05, 0x0A, 0x0B, 0x0C, 0x0D, 0x0E, 0x32, 0x7F})
    CHECK_FALSE(ticks(at));
}
