#include "chip/calendar.h"

#include <catch2/catch.hpp>

using namespace rtcmend;

TEST_CASE("an ISO date is read with a T or a blank, with or without seconds") {
  CHECK(parse_iso("2031-05-14T09:30:00") == DateTime{2031, 5, 14, 9, 30, 0});
  CHECK(parse_iso("2031-05-14 09:30:07") == DateTime{2031, 5, 14, 9, 30, 7});
  CHECK(parse_iso("2031-05-14T09:30") == DateTime{2031, 5, 14, 9, 30, 0});
}

TEST_CASE("what does not read like a date and time is none") {
  CHECK_FALSE(parse_iso(""));
  CHECK_FALSE(parse_iso("2031-05-14"));
  CHECK_FALSE(parse_iso("2031-5-14T09:30:00"));
  CHECK_FALSE(parse_iso("2031-05-14T09:30:00Z"));
  CHECK_FALSE(parse_iso("2031/05/14T09:30:00"));
  CHECK_FALSE(parse_iso("-031-05-14T09:30:00"));
  CHECK_FALSE(parse_iso("2031-05-14T+9:30:00"));
  CHECK_FALSE(parse_iso("2031-05-14T09:30:0"));
  CHECK_FALSE(parse_iso("2031-05-14T0::30:00"));
  CHECK_FALSE(parse_iso("2031-05-14T0A:30:00"));
}

TEST_CASE("a date that does not exist is none") {
  CHECK_FALSE(parse_iso("2031-04-31T00:00:00"));
  CHECK_FALSE(parse_iso("2031-02-29T00:00:00"));
  CHECK_FALSE(parse_iso("2031-00-10T00:00:00"));
  CHECK_FALSE(parse_iso("2031-13-10T00:00:00"));
  CHECK_FALSE(parse_iso("2031-01-00T00:00:00"));
  CHECK_FALSE(parse_iso("2031-01-01T24:00:00"));
  CHECK_FALSE(parse_iso("2031-01-01T00:60:00"));
  CHECK_FALSE(parse_iso("2031-01-01T00:00:60"));
  CHECK(parse_iso("2032-02-29T23:59:59"));
}

TEST_CASE("a clock can be set from 1980 to 2099") {
  CHECK_FALSE(parse_iso("1979-12-31T23:59:59"));
  CHECK(parse_iso("1980-01-01T00:00:00"));
  CHECK(parse_iso("2099-12-31T23:59:59"));
  CHECK_FALSE(parse_iso("2100-01-01T00:00:00"));
  CHECK(exists({1979, 12, 31, 23, 59, 59}));
  CHECK_FALSE(can_be_set({1979, 12, 31, 23, 59, 59}));
}

TEST_CASE("a date is written with all its zeros") {
  CHECK(to_iso({1987, 3, 4, 5, 6, 7}) == "1987-03-04T05:06:07");
  CHECK(to_iso({2099, 12, 31, 23, 59, 59}) == "2099-12-31T23:59:59");
}

TEST_CASE("weekdays count from 1 = Sunday") {
  CHECK(weekday_of(1979, 2, 15) == 5);   // Thursday (MC146818A, worked example, from memory)
  CHECK(weekday_of(1999, 12, 31) == 6);  // Friday (from memory)
  CHECK(weekday_of(2000, 1, 1) == 7);    // Saturday (from memory)
  CHECK(weekday_of(2000, 1, 2) == 1);    // Sunday
  CHECK(weekday_of(2024, 2, 29) == 5);   // Thursday (from memory)
  CHECK(weekday_name(1) == "Sunday");
  CHECK(weekday_name(5) == "Thursday");
  CHECK(weekday_name(7) == "Saturday");
  CHECK(weekday_name(0) == "no weekday");
  CHECK(weekday_name(8) == "no weekday");
}

TEST_CASE("months have their days, February by the Gregorian rule") {
  const int expected[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  for (int month = 1; month <= 12; ++month)
    CHECK(days_in_month(2031, month) == expected[month - 1]);
  CHECK(days_in_month(2000, 2) == 29);
  CHECK(days_in_month(2096, 2) == 29);
  CHECK(days_in_month(1900, 2) == 28);
}

TEST_CASE("seconds are counted from the start of 1980") {
  CHECK(seconds_since_1980({1980, 1, 1, 0, 0, 0}) == 0);
  CHECK(seconds_since_1980({1979, 12, 31, 23, 59, 59}) == -1);
  // Unix time 946684800 and 2147483647, less 315532800 for the ten years before (common practice,
  // no source).
  CHECK(seconds_since_1980({2000, 1, 1, 0, 0, 0}) == 631152000);
  CHECK(seconds_since_1980({2038, 1, 19, 3, 14, 7}) == 1831950847);

  CHECK(from_seconds_since_1980(0) == DateTime{1980, 1, 1, 0, 0, 0});
  CHECK(from_seconds_since_1980(-1) == DateTime{1979, 12, 31, 23, 59, 59});
  CHECK(from_seconds_since_1980(631152000) == DateTime{2000, 1, 1, 0, 0, 0});
  CHECK(from_seconds_since_1980(1831950847) == DateTime{2038, 1, 19, 3, 14, 7});
}
