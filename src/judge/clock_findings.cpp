#include <cctype>
#include <fmt/format.h>

#include "base/text.h"
#include "chip/clock_bytes.h"
#include "chip/registers.h"
#include "judge/findings.h"

namespace rtcmend {

namespace {

std::string sentence(std::string text) {
  if (!text.empty())
    text.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(text.front())));
  return text + ".";
}

Finding unknown_clock(const Image& image) {
  Addresses missing;
  for (const Address at : {reg::seconds, reg::minutes, reg::hours, reg::weekday, reg::day,
                           reg::month, reg::year, reg::a, reg::b, reg::c, reg::d})
    if (!image.known(at)) missing.push_back(at);
  return {FindingKind::clock_unknown,
          missing,
          fmt::format("The dump does not hold {}, so the clock cannot be read.", to_prose(missing)),
          {{"Set the clock when the chip is back in its machine, or here",
            Act{Act::Kind::set_clock, {}, {}}}},
          {}};
}

constexpr const char* reads_bcd =
    "RBIL61, INT 1Ah AH = 02h: PC firmware asks for BCD, without AM and PM";

/// Whether PC firmware, which does not ask register B, finds a time in this byte.
bool is_right_for_firmware(Address at, std::uint8_t byte) {
  if (at == reg::hours) return hour_in(byte, ClockMode{}).has_value();
  return number_in({at, "time", 0, 59}, byte, false).has_value();
}

/// Power-on tests look at seconds, minutes and hours alone (from memory; measured on 64 images of
/// real firmware, whose noted faults say nothing against it). The rest is only wrong.
FindingKind kind_of_fault(const ClockFault& fault, const Image& image) {
  switch (fault.at) {
    case reg::weekday:
      return FindingKind::weekday_wrong;
    case reg::day:
    case reg::month:
    case reg::year:
      return FindingKind::clock_date_impossible;
    default:
      return is_right_for_firmware(fault.at, image[fault.at]) ? FindingKind::clock_byte_other_mode
                                                              : FindingKind::clock_byte_illegal;
  }
}

Finding clock_fault(const ClockFault& fault, const Image& image) {
  const FindingKind kind = kind_of_fault(fault, image);
  std::string text = sentence(fault.what);
  if (kind == FindingKind::clock_byte_other_mode)
    text +=
        " PC firmware reads BCD on a 24-hour dial and finds nothing wrong; the chip does not "
        "count on from here.";
  return {kind,
          {fault.at},
          std::move(text),
          set_the_clock(),
          kind == FindingKind::clock_byte_other_mode ? reads_bcd : "DS12885, tables 2A and 2B"};
}

Finding alarm_fault(const ClockFault& fault, const Image& image) {
  const bool in_use = decode_b(image[reg::b]).alarm;
  return {in_use ? FindingKind::alarm_byte_illegal : FindingKind::alarm_byte_leftover,
          {fault.at},
          sentence(fault.what),
          in_use ? "The alarm is on in register B: set its time again where the machine offers it."
                 : "Nothing: the alarm is off.",
          "DS12885, tables 2A and 2B"};
}

Finding wrong_weekday(const ClockReading& clock) {
  const DateTime& time = *clock.time;
  const int right = weekday_of(time.year, time.month, time.day);
  return {FindingKind::weekday_wrong,
          {reg::weekday},
          fmt::format("The weekday byte says {}, but {:04}-{:02}-{:02} is a {}.",
                      weekday_name(*clock.weekday), time.year, time.month, time.day,
                      weekday_name(right)),
          "Setting the clock sets the weekday with it. Most PC firmware never looks at it.",
          "DS12885, table 2A: 1 to 7; Sunday = 1 is convention"};
}

}  // namespace

Advice set_the_clock() {
  return {{"Set the clock", Act{Act::Kind::set_clock, {}, {}}}};
}

std::vector<Finding> clock_findings(const ClockReading& clock, const Image& image) {
  std::vector<Finding> findings;
  if (!clock.known || !clock.mode) findings.push_back(unknown_clock(image));
  for (const ClockFault& fault : clock.faults) findings.push_back(clock_fault(fault, image));
  for (const ClockFault& fault : clock.alarm_faults) findings.push_back(alarm_fault(fault, image));
  if (clock.time && clock.weekday &&
      *clock.weekday != weekday_of(clock.time->year, clock.time->month, clock.time->day))
    findings.push_back(wrong_weekday(clock));
  return findings;
}

namespace {

std::vector<Finding> assumed_century(const ClockReading& clock) {
  if (!clock.time) return {};
  return {{FindingKind::century_assumed,
           {reg::year},
           fmt::format("No century is stored, so the year is taken as {}: 80-99 as 19xx, 00-79 as "
                       "20xx.",
                       clock.time->year),
           "Nothing, unless the weekday says otherwise.",
           "common practice, no source"}};
}

Finding century_doubt(FindingKind kind, const Field& field, std::string text) {
  return {kind,
          addresses(field),
          std::move(text),
          {{"Set the clock, which sets the century with it", Act{Act::Kind::set_clock, {}, {}}},
           {"Or set the century alone", Act{Act::Kind::set_field, field.id, "20"}}},
          field.source};
}

std::string implausible_century(std::int64_t century, const ClockReading& clock) {
  if (century != 19 && century != 20)
    return fmt::format("The century byte says {}, where only 19 and 20 make sense for a PC.",
                       century);
  if (clock.time && clock.time->year < first_year)
    return fmt::format("The century byte says {}, which makes the year {}: before there were PCs.",
                       century, clock.time->year);
  return {};
}

}  // namespace

std::vector<Finding> mode_findings(const Layout& layout, const Image& image) {
  const auto byte = image.at(reg::b);
  if (!byte || !is_of_a_pc(layout)) return {};
  const RegisterB b = decode_b(*byte);
  if (!b.binary && b.hours_24) return {};
  const std::string_view how = !b.binary    ? "on a 12-hour dial"
                               : b.hours_24 ? "in binary"
                                            : "in binary, on a 12-hour dial";
  return {
      {FindingKind::clock_mode_other,
       {reg::b},
       fmt::format("Register B has the chip count {}; PC firmware reads BCD on a 24-hour dial, "
                   "so it may show another time than the chip keeps.",
                   how),
       {{"Set the clock, which goes over to BCD and 24 hours", Act{Act::Kind::set_clock, {}, {}}}},
       reads_bcd}};
}

std::vector<Finding> century_findings(const ClockReading& clock, const Layout& layout,
                                      const Image& image) {
  const Field* field = layout.field("century");
  if (field == nullptr) return assumed_century(clock);
  const FieldReading reading = read_value(*field, image);
  if (!reading.known) return assumed_century(clock);
  const auto* century = std::get_if<std::int64_t>(&reading.value);
  if (century == nullptr)
    return {century_doubt(FindingKind::century_illegal, *field,
                          fmt::format("The century byte holds {}, which is not BCD.",
                                      hex_prose(static_cast<std::uint8_t>(reading.raw))))};
  const std::string why = implausible_century(*century, clock);
  if (why.empty()) return {};
  return {century_doubt(FindingKind::century_implausible, *field, why)};
}

}  // namespace rtcmend
