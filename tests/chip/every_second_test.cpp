// Every second of the days where clocks go wrong, in all four modes of the chip (MC146818A, tables
// of the time registers: BCD or binary, 24 hours or 12 with bit 7 for PM).
#include <catch2/catch.hpp>

#include "chip/clock.h"

using namespace rtcmend;

namespace {

struct Boundary {
  DateTime first;     ///< 00:00:00 of the first of two days
  DateTime last;      ///< 23:59:59 of the second
  int first_weekday;  ///< 1 = Sunday
  int last_weekday;
};

/// Weekdays by GNU date, typed in.
const std::vector<Boundary> boundaries = {
    {{1996, 2, 28, 0, 0, 0}, {1996, 2, 29, 23, 59, 59}, 4, 5},     // a leap year
    {{2000, 2, 29, 0, 0, 0}, {2000, 3, 1, 23, 59, 59}, 3, 4},      // a leap year divisible by 400
    {{1999, 12, 31, 0, 0, 0}, {2000, 1, 1, 23, 59, 59}, 6, 7},     // the century turns
    {{2099, 12, 30, 0, 0, 0}, {2099, 12, 31, 23, 59, 59}, 4, 5}};  // the last days there are

constexpr ClockMode modes[] = {{false, true}, {false, false}, {true, true}, {true, false}};

Image clock_image(const ClockMode& mode) {
  Image image(64);
  image.set(0x0A, 0x26);
  image.set(0x0B, static_cast<std::uint8_t>((mode.binary ? 0x04 : 0) | (mode.hours_24 ? 0x02 : 0)));
  for (const Address at : Addresses{0x01, 0x03, 0x05}) image.set(at, 0);
  return image;
}

}  // namespace

TEST_CASE("every second around leap days and centuries is written and read back", "[long][count]") {
  for (const Boundary& boundary : boundaries) {
    for (const ClockMode& mode : modes) {
      INFO(to_iso(boundary.first) << (mode.binary ? " binary" : " BCD")
                                  << (mode.hours_24 ? " 24" : " 12"));
      Image image = clock_image(mode);
      const long long start = seconds_since_1980(boundary.first);
      CHECK(seconds_since_1980(boundary.last) - start == 2 * 86400 - 1);
      long long wrong = 0;
      for (long long second = 0; second < 2 * 86400; ++second) {
        const DateTime time = from_seconds_since_1980(start + second);
        write_clock(time, mode, image);
        const ClockReading reading = read_clock(image, time.year / 100);
        const int weekday = second < 86400 ? boundary.first_weekday : boundary.last_weekday;
        if (reading.time != time || reading.weekday != weekday || !reading.faults.empty()) ++wrong;
      }
      CHECK(wrong == 0);
      CHECK(from_seconds_since_1980(start + 2 * 86400 - 1) == boundary.last);
    }
  }
}

TEST_CASE("the twelve-hour bytes of midnight and noon are the data sheet's") {
  // MC146818A: 12 AM is 12h in BCD, 12 PM is 92h; 11 PM is 91h. Binary: 0Ch, 8Ch, 8Bh.
  Image image = clock_image({false, false});
  write_clock({1999, 12, 31, 0, 0, 0}, {false, false}, image);
  CHECK(image[0x04] == 0x12);
  write_clock({1999, 12, 31, 12, 0, 0}, {false, false}, image);
  CHECK(image[0x04] == 0x92);
  write_clock({1999, 12, 31, 23, 0, 0}, {false, false}, image);
  CHECK(image[0x04] == 0x91);
  write_clock({1999, 12, 31, 0, 0, 0}, {true, false}, image);
  CHECK(image[0x04] == 0x0C);
  write_clock({1999, 12, 31, 12, 0, 0}, {true, false}, image);
  CHECK(image[0x04] == 0x8C);
  write_clock({1999, 12, 31, 23, 0, 0}, {true, false}, image);
  CHECK(image[0x04] == 0x8B);
}
