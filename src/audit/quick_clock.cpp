#include "audit/quick_clock.h"

#include "chip/clock.h"
#include "chip/registers.h"
#include "judge/credence.h"
#include "judge/findings.h"

namespace rtcmend {

namespace {

// A day that its month does not have, and a weekday that does not fit the date, show only when the
// whole date is read. The first turns what the day byte says in its favour (3.05 bits) into 4
// against; the other can only add.
constexpr double most_by_date = 7.1;

constexpr Address time_bytes[] = {reg::seconds, reg::minutes, reg::hours};
constexpr Address alarm_bytes[] = {reg::seconds_alarm, reg::minutes_alarm, reg::hours_alarm};
constexpr Address date_bytes[] = {reg::weekday, reg::day, reg::month, reg::year};
constexpr Address registers[] = {reg::a, reg::b, reg::c, reg::d};

/// What of register B decides how the other bytes are judged, in three bits: 24 hours, binary, and
/// whether the alarm is on (bits 1, 2 and 5, DS12885).
std::size_t mode_in(std::uint8_t register_b) {
  return (register_b >> 1 & 3U) | (register_b >> 3 & 4U);
}

/// What of the mode a byte rests on: 12 or 24 hours concern the hours alone, and only for a byte of
/// the alarm it matters whether that is on.
std::size_t own_mode(Address at, bool is_register, std::size_t mode) {
  if (is_register) return 0;
  const bool of_hours = at == reg::hours || at == reg::hours_alarm;
  const bool of_alarm =
      std::find(std::begin(alarm_bytes), std::end(alarm_bytes), at) != std::end(alarm_bytes);
  return mode & ((of_hours ? 1U : 0U) | 2U | (of_alarm ? 4U : 0U));
}

bool is_time(Address at) {
  return at == reg::seconds || at == reg::minutes || at == reg::hours;
}

}  // namespace

Image only_known(const Image& image, const Addresses& known) {
  Image partly(image.size());
  for (const Address at : known) partly.set(at, image[at]);
  return partly;
}

QuickClock::QuickClock() {
  const Recall<Said> of_byte(8);
  const auto add = [&](Address at, bool is_register) {
    parts_.push_back({at,
                      is_register,
                      {of_byte, of_byte, of_byte, of_byte, of_byte, of_byte, of_byte, of_byte}});
  };
  for (const Address at : registers) add(at, true);
  for (const auto& bytes :
       {std::span<const Address>(time_bytes), std::span<const Address>(alarm_bytes),
        std::span<const Address>(date_bytes)})
    for (const Address at : bytes) add(at, false);
}

QuickClock::Said QuickClock::ask(const Part& part, const Image& image) {
  if (part.is_register) {
    const Image partly = only_known(image, {part.at});
    return {set_of(register_findings(partly)), chip_credence(partly)};
  }
  const Image partly = only_known(image, {reg::b, part.at});
  ClockReading clock = judge_clock(partly, std::nullopt);
  clock.known = true;  // that the rest of it is missing is this function's own doing
  return {set_of(clock_findings(clock, partly)), chip_credence(partly)};
}

QuickClock::Answer QuickClock::operator()(const Image& image) {
  Answer answer{{}, true, -most_by_date};
  const std::size_t mode = mode_in(image[reg::b]);
  // Each clock byte was asked together with register B, which by itself counts nothing.
  for (Part& part : parts_) {
    const Said& said = part.by_mode[own_mode(part.at, part.is_register, mode)](
        image[part.at], [&] { return ask(part, image); });
    answer.findings |= said.findings;
    answer.least_credence += said.credence;
    if (is_time(part.at) && said.findings.bits != 0) answer.time_is_legal = false;
  }
  return answer;
}

}  // namespace rtcmend
