#include "codes/forecast.h"

#include <algorithm>
#include <utility>

namespace rtcmend {

namespace {

Foretold foretell(const PostCode& code, const Examination& examination, const Layout& layout) {
  Foretold foretold{&code, {}, {}};
  for (const Cause& cause : code.causes) {
    const auto seen = symptoms_seen(cause, examination, layout);
    if (seen.empty()) continue;
    foretold.why.push_back(cause.text);
    for (const std::string& id : seen)
      if (std::find(foretold.because.begin(), foretold.because.end(), id) == foretold.because.end())
        foretold.because.push_back(id);
  }
  return foretold;
}

/// Findings by which a start may go either way.
struct Unsettling {
  FindingKind kind;
  const char* text;
};

constexpr Unsettling unsettling[] = {
    {FindingKind::no_check,
     "Nothing proves the settings, so firmware with a check of its own may still raise 162."},
    {FindingKind::field_unlisted,
     "A code stands here that no list has: whether the firmware takes it is not known."},
    {FindingKind::clock_mode_other,
     "PC firmware reads the clock in BCD on a 24-hour dial. Its test may refuse what the chip "
     "counts otherwise, with 163."},
    {FindingKind::base_memory_odd,
     "The base memory is what no machine has: what is found will differ, with 164 or 201."},
    {FindingKind::extended_memory_tiny,
     "The extended memory is what no machine has: what is found will differ, with 164."},
    {FindingKind::display_keyboard_off,
     "With display and keyboard both off a machine may raise 162, or start and show nothing."},
    {FindingKind::disk_not_entered,
     "A disk of no size cannot be started from: 1780, 1781, or no code at all."},
    {FindingKind::part_valid_by_reading,
     "This part sets VRT when 0Dh is read: a dump of it cannot show a flat cell, so 161 may come "
     "all the same."},
};

std::vector<Unpromised> unpromised(const Examination& examination) {
  std::vector<Unpromised> all;
  for (const Unsettling& one : unsettling)
    if (std::any_of(examination.findings.begin(), examination.findings.end(),
                    [&](const Finding& finding) { return finding.kind == one.kind; }))
      all.push_back({one.text, {std::string(kind_of(one.kind).id)}});
  return all;
}

}  // namespace

Forecast forecast(const Examination& examination, const Layout& layout) {
  if (examination.standing.dump == Standing::Dump::misread) return {{}, {}, true};
  std::vector<Foretold> codes;
  for (const PostCode& code : post_codes()) {
    if (!code.only_in.empty() && code.only_in != layout.of) continue;
    Foretold foretold = foretell(code, examination, layout);
    if (!foretold.because.empty()) codes.push_back(std::move(foretold));
  }
  std::stable_sort(codes.begin(), codes.end(), [](const Foretold& a, const Foretold& b) {
    return a.code->turn < b.code->turn;
  });
  return {std::move(codes), unpromised(examination), false};
}

}  // namespace rtcmend
