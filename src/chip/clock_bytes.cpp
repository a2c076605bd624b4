#include "chip/clock_bytes.h"

#include <fmt/format.h>

namespace rtcmend {

namespace {

// Of the hours byte, in 12-hour mode (DS12885).
constexpr std::uint8_t pm_bit = 0x80;

std::optional<int> plain_number(std::uint8_t byte, bool binary) {
  if (binary) return byte;
  const int tens = byte >> 4, ones = byte & 0x0F;
  if (tens > 9 || ones > 9) return std::nullopt;
  return tens * 10 + ones;
}

std::optional<int> number_between(std::uint8_t byte, bool binary, int least, int most) {
  const auto value = plain_number(byte, binary);
  if (!value || *value < least || *value > most) return std::nullopt;
  return value;
}

std::optional<int> plain_hours(std::uint8_t byte, const ClockMode& mode) {
  if (mode.hours_24) return number_between(byte, mode.binary, 0, 23);
  const auto twelve = number_between(static_cast<std::uint8_t>(byte & ~pm_bit), mode.binary, 1, 12);
  if (!twelve) return std::nullopt;
  return *twelve % 12 + ((byte & pm_bit) != 0 ? 12 : 0);
}

int on_twelve_hour_dial(int hour) {
  return hour % 12 == 0 ? 12 : hour % 12;
}

std::string name_hours(const ClockMode& mode) {
  return mode.hours_24 ? "24-hour" : "12-hour";
}

std::string hour_in_words(int hour, const ClockMode& mode) {
  if (mode.hours_24) return fmt::format("{:02}:00", hour);
  return fmt::format("{} {}", on_twelve_hour_dial(hour), hour < 12 ? "AM" : "PM");
}

}  // namespace

std::optional<int> number_in(const ClockByte& which, std::uint8_t byte, bool binary) {
  return number_between(byte, binary, which.least, which.most);
}

std::optional<int> hour_in(std::uint8_t byte, const ClockMode& mode) {
  return plain_hours(byte, mode);
}

DecodedByte decode_number(const ClockByte& which, std::uint8_t byte, bool binary) {
  const auto value = plain_number(byte, binary);
  if (!value) return {{}, fmt::format("the {} byte {:02X}h is not BCD", which.name, byte)};
  if (*value < which.least || *value > which.most)
    return {{},
            fmt::format("the {} byte {:02X}h means {}, which is not between {} and {}", which.name,
                        byte, *value, which.least, which.most)};
  return {value, {}};
}

std::uint8_t encode_number(int value, bool binary) {
  return static_cast<std::uint8_t>(binary ? value : value / 10 * 16 + value % 10);
}

DecodedByte decode_hours(const ClockByte& which, std::uint8_t byte, const ClockMode& mode) {
  if (const auto hour = plain_hours(byte, mode)) return {hour, {}};

  const ClockMode other{mode.binary, !mode.hours_24};
  const std::string says = fmt::format("the {} byte {:02X}h", which.name, byte);
  if (const auto hour = plain_hours(byte, other))
    return {
        {},
        fmt::format("{} is not legal in {} mode (register B says {}; it would be {} in {} mode)",
                    says, name_hours(mode), name_hours(mode), hour_in_words(*hour, other),
                    name_hours(other))};
  if (!plain_number(byte, mode.binary)) return {{}, says + " is not BCD"};
  return {{}, says + " is not legal in 12-hour or 24-hour mode"};
}

std::uint8_t encode_hours(int hour, const ClockMode& mode) {
  if (mode.hours_24) return encode_number(hour, mode.binary);
  const std::uint8_t dial = encode_number(on_twelve_hour_dial(hour), mode.binary);
  return hour < 12 ? dial : static_cast<std::uint8_t>(dial | pm_bit);
}

}  // namespace rtcmend
