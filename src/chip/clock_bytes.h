#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "chip/clock.h"

namespace rtcmend {

/// A clock or alarm byte: where it stands, what it is called, what it may hold.
struct ClockByte {
  Address at;
  const char* name;
  int least, most;  ///< for hours: of the 24-hour mode
};

/// What one byte means, or why it means nothing. Exactly one of the two is there.
struct DecodedByte {
  std::optional<int> value;
  std::string fault;
};

/// Everything but hours.
DecodedByte decode_number(const ClockByte& which, std::uint8_t byte, bool binary);
std::uint8_t encode_number(int value, bool binary);

/// decode_number(...).value and decode_hours(...).value, without the words for a fault.
std::optional<int> number_in(const ClockByte& which, std::uint8_t byte, bool binary);
std::optional<int> hour_in(std::uint8_t byte, const ClockMode& mode);

/// The hour, 0-23, of either mode. A byte that is legal only in the other mode is a fault that says
/// both.
DecodedByte decode_hours(const ClockByte& which, std::uint8_t byte, const ClockMode& mode);
std::uint8_t encode_hours(int hour, const ClockMode& mode);

}  // namespace rtcmend
