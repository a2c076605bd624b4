#include <catch2/catch.hpp>
#include <string>

#include "chip/clock.h"
#include "chip/clock_images.h"

using namespace rtcmend;

namespace {

std::string alarm(std::uint8_t hours, std::uint8_t minutes, std::uint8_t seconds,
                  std::uint8_t register_b = 0x02) {
  Image image = usual_clock_with(0x05, hours);
  image.set(0x03, minutes);
  image.set(0x01, seconds);
  image.set(0x0B, register_b);
  return describe_alarm(read_clock(image, 20));
}

}  // namespace

TEST_CASE("an alarm without don't-care codes comes at one time of day") {
  CHECK(alarm(0x06, 0x30, 0x00) == "at 06:30:00");
  CHECK(alarm(0x00, 0x00, 0x00) == "at 00:00:00");
  CHECK(alarm(0x92, 0x30, 0x15, 0x00) == "at 12:30:15");
  CHECK(alarm(0x8B, 0x1E, 0x0F, 0x04) == "at 23:30:15");
}

TEST_CASE("don't-care codes widen the alarm hour by hour, minute by minute, second by second") {
  // DS12885, alarm: hours; hours and minutes; all three.
  CHECK(alarm(0xC0, 0x30, 0x15) == "every hour, at minute 30, second 15");
  CHECK(alarm(0xC0, 0xFF, 0x15) == "every minute, at second 15");
  CHECK(alarm(0xFF, 0xFF, 0xFF) == "every second");
}

TEST_CASE("the other don't-care codes compare what is left") {
  CHECK(alarm(0x06, 0xC0, 0x15) == "every minute from 06:00 to 06:59, at second 15");
  CHECK(alarm(0x06, 0xC0, 0xC0) == "every second from 06:00:00 to 06:59:59");
  CHECK(alarm(0x06, 0x30, 0xC0) == "every second from 06:30:00 to 06:30:59");
  CHECK(alarm(0xC0, 0x30, 0xC0) == "every hour, every second of minute 30");
}

TEST_CASE("don't care starts at C0h, one below is not legal (DS12885)") {
  CHECK(alarm(0x06, 0x30, 0xC0) == "every second from 06:30:00 to 06:30:59");
  CHECK(alarm(0x06, 0x30, 0xBF) == "not legal");
  CHECK(alarm(0x24, 0x30, 0x00) == "not legal");
}

TEST_CASE("an unknown alarm byte leaves the alarm unknown") {
  for (const Address at : Addresses{0x01, 0x03, 0x05}) {
    Image image = usual_clock();
    image.forget(at);
    CHECK(describe_alarm(read_clock(image, 20)) == "unknown");
  }
}

TEST_CASE("don't-care codes are seen even when register B is unknown") {
  Image image = usual_clock_with(0x05, 0xFF);
  image.forget(0x0B);
  const ClockReading reading = read_clock(image, 20);
  CHECK(reading.alarm_hours.any);
  CHECK_FALSE(reading.alarm_minutes.any);
  CHECK_FALSE(reading.alarm_minutes.value);
}
