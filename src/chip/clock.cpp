#include "chip/clock.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <fmt/format.h>
#include <utility>

#include "chip/clock_bytes.h"
#include "chip/registers.h"

namespace rtcmend {

namespace {

// MC146818A; DS12885 tables 2A and 2B.
constexpr ClockByte seconds{reg::seconds, "seconds", 0, 59};
constexpr ClockByte minutes{reg::minutes, "minutes", 0, 59};
constexpr ClockByte hours{reg::hours, "hours", 0, 23};
constexpr ClockByte weekday{reg::weekday, "weekday", 1, 7};
constexpr ClockByte day{reg::day, "day", 1, 31};
constexpr ClockByte month{reg::month, "month", 1, 12};
constexpr ClockByte year{reg::year, "year", 0, 99};
constexpr ClockByte alarm_seconds{reg::seconds_alarm, "seconds alarm", 0, 59};
constexpr ClockByte alarm_minutes{reg::minutes_alarm, "minutes alarm", 0, 59};
constexpr ClockByte alarm_hours{reg::hours_alarm, "hours alarm", 0, 23};

constexpr std::array time_bytes{reg::seconds, reg::minutes, reg::hours,
                                reg::day,     reg::month,   reg::year};

// The two top bits of an alarm byte: any value will do (DS12885).
constexpr std::uint8_t dont_care = 0xC0;
// Divider bits 010 of register A: oscillator on and counting (DS12885).
constexpr std::uint8_t counting_bits = 0x20, rate_bits = 0x0F;
constexpr std::uint8_t set_bit = 0x80, binary_bit = 0x04, hours_24_bit = 0x02;

// A two-digit year alone: PCs start in 1980, so 80-99 belong to 19xx.
int assumed_century(int year_of_century) {
  return year_of_century >= first_year % 100 ? 19 : 20;
}

// Reads bytes in one mode and collects what is wrong with them. Without a mode no byte means
// anything.
struct ByteReader {
  enum class Words { full, none };

  const Image& image;
  std::optional<ClockMode> mode;
  Words words = Words::full;
  std::vector<ClockFault> faults{};

  std::optional<int> read(const ClockByte& which) {
    const auto byte = image.at(which.at);
    if (!byte || !mode) return std::nullopt;
    const bool holds_hours = which.at == reg::hours || which.at == reg::hours_alarm;
    const auto value = holds_hours ? hour_in(*byte, *mode) : number_in(which, *byte, mode->binary);
    if (!value) faults.push_back({which.at, in_words(which, *byte)});
    return value;
  }

  std::string in_words(const ClockByte& which, std::uint8_t byte) const {
    if (words == Words::none) return {};
    const bool holds_hours = which.at == reg::hours || which.at == reg::hours_alarm;
    return holds_hours ? decode_hours(which, byte, *mode).fault
                       : decode_number(which, byte, mode->binary).fault;
  }

  AlarmPart read_alarm(const ClockByte& which) {
    const auto byte = image.at(which.at);
    if (byte && *byte >= dont_care) return {true, std::nullopt};
    return {false, read(which)};
  }
};

void read_date_and_time(ByteReader& reader, std::optional<int> century, ClockReading& reading) {
  const auto s = reader.read(seconds), mi = reader.read(minutes), h = reader.read(hours);
  reading.weekday = reader.read(weekday);
  const auto d = reader.read(day), mo = reader.read(month), y = reader.read(year);
  if (!d || !mo || !y) return;

  reading.century_assumed = !century;
  const int full_year = century.value_or(assumed_century(*y)) * 100 + *y;
  if (*d > days_in_month(full_year, *mo)) {
    reader.faults.push_back({reg::day, reader.words == ByteReader::Words::none
                                           ? std::string()
                                           : fmt::format("the day {} does not exist in {:04}-{:02}",
                                                         *d, full_year, *mo)});
    return;
  }
  if (s && mi && h) reading.time = DateTime{full_year, *mo, *d, *h, *mi, *s};
}

void read_alarms(ByteReader& reader, ClockReading& reading) {
  reading.alarm_seconds = reader.read_alarm(alarm_seconds);
  reading.alarm_minutes = reader.read_alarm(alarm_minutes);
  reading.alarm_hours = reader.read_alarm(alarm_hours);
}

std::optional<bool> read_running(const Image& image) {
  const auto a = image.at(reg::a), b = image.at(reg::b);
  if (!a || !b) return std::nullopt;
  return decode_a(*a).oscillator == Oscillator::counting && !decode_b(*b).set;
}

ClockReading read_with(ByteReader::Words words, const Image& image, std::optional<int> century) {
  ClockReading reading;
  reading.known = std::ranges::all_of(time_bytes, [&](Address at) { return image.known(at); });
  reading.mode = mode_of(image);
  reading.running = read_running(image);

  ByteReader time_reader{image, reading.mode, words};
  read_date_and_time(time_reader, century, reading);
  reading.faults = std::move(time_reader.faults);

  ByteReader alarm_reader{image, reading.mode, words};
  read_alarms(alarm_reader, reading);
  reading.alarm_faults = std::move(alarm_reader.faults);
  return reading;
}

/// The alarm bytes that mean something, written down anew.
void carry_alarms(const Image& before, const ClockMode& mode, Image& image) {
  const ClockReading old = judge_clock(before, std::nullopt);
  if (const auto second = old.alarm_seconds.value)
    image.set(reg::seconds_alarm, encode_number(*second, mode.binary));
  if (const auto minute = old.alarm_minutes.value)
    image.set(reg::minutes_alarm, encode_number(*minute, mode.binary));
  if (const auto hour = old.alarm_hours.value)
    image.set(reg::hours_alarm, encode_hours(*hour, mode));
}

}  // namespace

std::string mode_words(const ClockMode& mode) {
  return fmt::format("{} on a {}-hour dial", mode.binary ? "binary" : "BCD",
                     mode.hours_24 ? 24 : 12);
}

std::optional<ClockMode> mode_of(const Image& image) {
  const auto byte = image.at(reg::b);
  if (!byte) return std::nullopt;
  const RegisterB b = decode_b(*byte);
  return ClockMode{b.binary, b.hours_24};
}

ClockReading read_clock(const Image& image, std::optional<int> century) {
  return read_with(ByteReader::Words::full, image, century);
}

ClockReading judge_clock(const Image& image, std::optional<int> century) {
  return read_with(ByteReader::Words::none, image, century);
}

void write_clock(const DateTime& time, const ClockMode& mode, Image& image) {
  assert(can_be_set(time));
  image.set(reg::seconds, encode_number(time.second, mode.binary));
  image.set(reg::minutes, encode_number(time.minute, mode.binary));
  image.set(reg::hours, encode_hours(time.hour, mode));
  image.set(reg::weekday, encode_number(weekday_of(time.year, time.month, time.day), mode.binary));
  image.set(reg::day, encode_number(time.day, mode.binary));
  image.set(reg::month, encode_number(time.month, mode.binary));
  image.set(reg::year, encode_number(time.year % 100, mode.binary));
}

void start_clock(const DateTime& time, const ClockMode& mode, Image& image) {
  if (const auto old = mode_of(image); old && *old != mode) carry_alarms(image, mode, image);
  const std::uint8_t a = image.at(reg::a).value_or(usual_a);
  const std::uint8_t b = image.at(reg::b).value_or(usual_b);
  image.set(reg::a, static_cast<std::uint8_t>(counting_bits | (a & rate_bits)));
  const unsigned mode_bits = (mode.binary ? binary_bit : 0U) | (mode.hours_24 ? hours_24_bit : 0U);
  image.set(reg::b,
            static_cast<std::uint8_t>((b & ~(set_bit | binary_bit | hours_24_bit)) | mode_bits));
  for (const Address at : {reg::seconds_alarm, reg::minutes_alarm, reg::hours_alarm})
    if (!image.known(at)) image.set(at, 0x00);
  write_clock(time, mode, image);
}

bool ticks(Address at) {
  return at == reg::weekday || std::ranges::find(time_bytes, at) != time_bytes.end();
}

}  // namespace rtcmend
