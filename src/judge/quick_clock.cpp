#include "judge/quick_clock.h"

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

bool is_time(Address at) {
  return at == reg::seconds || at == reg::minutes || at == reg::hours;
}

}  // namespace

Image only_known(const Image& image, std::initializer_list<Address> known) {
  Image partly(image.size());
  for (const Address at : known) partly.set(at, image[at]);
  return partly;
}

QuickClock::QuickClock(FindingNames& names) : names_(names) {
  for (const Address at : registers)
    parts_.push_back({at, true, ImageRecall<Said>(RestingPlaces({at}))});
  for (const auto& bytes :
       {std::span<const Address>(time_bytes), std::span<const Address>(alarm_bytes),
        std::span<const Address>(date_bytes)})
    for (const Address at : bytes)
      parts_.push_back({at, false, ImageRecall<Said>(RestingPlaces({reg::b, at}))});
}

QuickClock::Said QuickClock::ask(const Part& part, const Image& image) {
  const Image partly =
      part.is_register ? only_known(image, {part.at}) : only_known(image, {reg::b, part.at});
  std::vector<Finding> findings;
  if (part.is_register) {
    findings = register_findings(partly);
  } else {
    findings = clock_findings(read_clock(partly, std::nullopt), partly);
    // That the rest of the clock is missing is this function's own doing.
    std::erase_if(findings, [](const Finding& finding) { return finding.id == "clock-unknown"; });
  }
  return {names_.set_of(findings), chip_credence(partly)};
}

QuickClock::Answer QuickClock::operator()(const Image& image) {
  Answer answer{{}, true, -most_by_date};
  // Each clock byte was asked together with register B, which by itself counts nothing.
  for (Part& part : parts_) {
    const Said& said = part.recall(image, [&] { return ask(part, image); });
    answer.findings |= said.findings;
    answer.least_credence += said.credence;
    if (is_time(part.at) && said.findings.bits != 0) answer.time_is_legal = false;
  }
  return answer;
}

}  // namespace rtcmend
