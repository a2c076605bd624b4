#include <fmt/format.h>

#include "base/text.h"
#include "chip/cautions.h"
#include "chip/registers.h"
#include "judge/findings.h"

namespace rtcmend {

namespace {

Finding oscillator_off(const RegisterA& a) {
  std::string text = fmt::format(
      "The oscillator is off (divider bits {:03b}), so the clock stands still. Parts are shipped "
      "like this to spare their cell.",
      a.divider);
  // 4.194304 MHz and 1.048576 MHz time bases (MC146818A).
  if (a.divider <= 1)
    text += " Only an original 146818 with a faster crystal would count with these bits.";
  return {FindingKind::oscillator_off, {reg::a}, text, set_the_clock(), "DS12885, register A"};
}

Finding oscillator_held() {
  return {FindingKind::oscillator_held,
          {reg::a},
          "The oscillator runs, but its countdown chain is held in reset, so the clock stands "
          "still.",
          set_the_clock(),
          "DS12885, register A"};
}

Finding updating() {
  return {FindingKind::updating,
          {reg::a},
          "An update was under way when the dump was taken (UIP is on), so the time bytes may be "
          "caught half-way.",
          "Take another dump if the time matters.",
          "DS12885, register A"};
}

Finding frozen() {
  return {FindingKind::clock_frozen,
          {reg::b},
          "SET is on in register B: the time bytes are frozen, and the clock looks stopped.",
          set_the_clock(),
          "DS12885, register B"};
}

Finding daylight_saving() {
  return {FindingKind::daylight_saving,
          {reg::b},
          "Daylight saving is on in register B: the chip jumps an hour on a Sunday in April (the "
          "first; on the MC146818A the last) and on the last in October, a United States rule that "
          "ended with 2006.",
          "Switch it off where the machine's setup offers it; a composed image leaves it off.",
          "DS12885, register B; the MC146818A from memory"};
}

Finding reserved_bits(Address at, std::uint8_t bits, std::string_view which) {
  return {FindingKind::reserved_bits_set,
          {at},
          fmt::format("Byte {} has bits set that the chip always reads as 0 ({} of {}): the dump "
                      "may not come from the chip itself.",
                      hex_prose(at), hex_prose(bits), which),
          "Compare with a second dump. A write cannot change this byte.",
          fmt::format("DS12885, {}", which)};
}

Finding cell_flat() {
  return {FindingKind::cell_flat,
          {reg::d},
          "The chip reports that its cell was flat or absent (VRT is 0): clock and RAM are both "
          "suspect, even where the checks hold.",
          by_hand("Replace or rework the cell, then write a sound image."),
          "DS12885, register D"};
}

void judge_a(const RegisterA& a, std::vector<Finding>& findings) {
  if (a.oscillator == Oscillator::off) findings.push_back(oscillator_off(a));
  if (a.oscillator == Oscillator::held) findings.push_back(oscillator_held());
  if (a.updating) findings.push_back(updating());
}

}  // namespace

std::vector<Finding> register_findings(const Image& image) {
  std::vector<Finding> findings;
  if (const auto byte = image.at(reg::a)) judge_a(decode_a(*byte), findings);
  if (const auto byte = image.at(reg::b)) {
    const RegisterB b = decode_b(*byte);
    if (b.set) findings.push_back(frozen());
    if (b.daylight_saving) findings.push_back(daylight_saving());
  }
  if (const auto byte = image.at(reg::c)) {
    const RegisterC c = decode_c(*byte);
    if (c.reserved != 0) findings.push_back(reserved_bits(reg::c, c.reserved, "register C"));
  }
  if (const auto byte = image.at(reg::d)) {
    const RegisterD d = decode_d(*byte);
    if (!d.valid) findings.push_back(cell_flat());
    if (d.reserved != 0) findings.push_back(reserved_bits(reg::d, d.reserved, "register D"));
  }
  return findings;
}

}  // namespace rtcmend
