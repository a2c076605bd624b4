#pragma once

#include <vector>

#include "base/image.h"
#include "check/check.h"
#include "chip/clock.h"
#include "judge/finding.h"
#include "layout/codec.h"
#include "layout/layout.h"

namespace rtcmend {

/// "Set the clock", with the act.
Advice set_the_clock();

// One function a family of findings. Each looks at one aspect and knows nothing of the others;
// examine() calls them all.

/// check-mismatch, check-unknown, blank, no-check. results: one for each check of the layout.
std::vector<Finding> check_findings(const std::vector<CheckResult>& results, const Image& image);

/// cell-flat, oscillator-off, oscillator-held, clock-frozen, updating, daylight-saving,
/// reserved-bits-set. Registers that are unknown say nothing.
std::vector<Finding> register_findings(const Image& image);

/// clock-unknown, clock-byte-illegal, clock-byte-other-mode, clock-date-impossible,
/// alarm-byte-illegal, weekday-wrong.
std::vector<Finding> clock_findings(const ClockReading& clock, const Image& image);

/// clock-mode-other, where PC firmware reads the clock.
std::vector<Finding> mode_findings(const Layout& layout, const Image& image);

/// century-illegal, century-implausible, century-assumed.
std::vector<Finding> century_findings(const ClockReading& clock, const Layout& layout,
                                      const Image& image);

/// base-memory-odd, extended-memory-tiny, display-keyboard-off: machines that nobody builds. For
/// images that are not blank.
std::vector<Finding> machine_findings(const Layout& layout, const Image& image);
/// The bytes that each of these rests on: nothing else has a say in it.
std::vector<Addresses> machine_bytes(const Layout& layout);

/// field-illegal, field-unlisted, disk-not-entered, escape-missing, escape-leftover,
/// diagnostic-flag. The century is left to century_findings(). checks: those that may vouch for a
/// code (vouches()).
std::vector<Finding> field_findings(const std::vector<FieldReading>& readings,
                                    const std::vector<CheckResult>& checks, const Image& image);
/// What an illegal value is. Under a check that holds, a list may be too short; a number out of its
/// bounds stays wrong. A disk by hand without a size was never entered.
FindingKind kind_of_illegal(const FieldReading& reading, bool vouched);
/// Whether a check says that a field is as the firmware left it: it holds, on bytes that say
/// something, and covers the whole field.
bool vouches(const CheckResult& result, const Field& field);

/// What a follower that breaks its relation is: relation-broken, memory-found-differs or
/// floppies-disagree.
FindingKind kind_of_broken(const Field& follower);
/// Those kinds: a field that does not say what the fields it follows make it.
std::vector<Finding> relation_findings(const std::vector<FieldReading>& readings,
                                       const Layout& layout, const Image& image);

}  // namespace rtcmend
