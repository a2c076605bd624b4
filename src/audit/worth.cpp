#include "audit/worth.h"

#include <algorithm>
#include <array>

namespace rtcmend {

namespace {

struct Reason {
  FindingKind kind;
  std::string_view words;
};

/// What tells most comes first: the reading before the settings, and those before the clock.
constexpr std::array reasons = {
    Reason{FindingKind::dump_all_ff, "all FF"},
    Reason{FindingKind::dump_all_00, "all 00"},
    Reason{FindingKind::dump_one_value, "one value"},
    Reason{FindingKind::address_line_stuck, "half read"},
    Reason{FindingKind::shifted, "shifted"},
    Reason{FindingKind::nibbles_swapped, "digits swapped"},
    Reason{FindingKind::bits_reversed, "bits reversed"},
    Reason{FindingKind::data_bit_stuck, "data bit stuck"},
    Reason{FindingKind::unstable_reads, "unstable"},
    Reason{FindingKind::misread_before, "misread before"},
    Reason{FindingKind::ram_cleared, "RAM cleared"},
    Reason{FindingKind::blank, "blank"},
    Reason{FindingKind::check_mismatch, "a check fails"},
    Reason{FindingKind::escape_missing, "a byte missing"},
    Reason{FindingKind::field_illegal, "illegal value"},
    Reason{FindingKind::sealed_before, "sealed anyway"},
    Reason{FindingKind::check_unknown, "half read"},
    Reason{FindingKind::data_bit_absent, "a bit never 1"},
    Reason{FindingKind::no_check, "no check known"},
    Reason{FindingKind::oscillator_off, "clock stopped"},
    Reason{FindingKind::oscillator_held, "clock stopped"},
    Reason{FindingKind::clock_frozen, "clock stopped"},
    Reason{FindingKind::clock_byte_illegal, "clock unset"},
    Reason{FindingKind::clock_byte_other_mode, "clock unset"},
    Reason{FindingKind::clock_date_impossible, "clock unset"},
    Reason{FindingKind::clock_unknown, "clock unknown"},
    Reason{FindingKind::cell_flat, "cell flat"},
};

/// Whatever keeps a dump from being sound has its words, and they fit their column.
consteval bool every_effect_has_words() {
  for (const KindOfFinding& row : finding_kinds) {
    const bool matters = row.effect != Effect::none ||
                         (row.severity == Severity::fault && row.family != Family::part);
    const bool told = std::any_of(reasons.begin(), reasons.end(),
                                  [&](const Reason& reason) { return reason.kind == row.kind; });
    if (matters && !told) return false;
  }
  return std::all_of(reasons.begin(), reasons.end(),
                     [](const Reason& reason) { return reason.words.size() <= longest_reason; });
}
static_assert(every_effect_has_words());

std::string_view words_of(Looks looks) {
  switch (looks) {
    case Looks::noise:
      return "noise";
    case Looks::half_read:
      return "half read";
    case Looks::sensible:
      break;
  }
  return "no check known";
}

}  // namespace

std::string_view name(Worth worth) {
  switch (worth) {
    case Worth::proven:
      return "proven";
    case Worth::unproven:
      return "unproven";
    case Worth::broken:
      break;
  }
  return "broken";
}

Worth worth_of(const Verdict& verdict) {
  const Standing standing = standing_of(verdict.findings);
  if (standing.dump == Standing::Dump::misread || standing.settings == Standing::Settings::broken)
    return Worth::broken;
  // Where no layout is clear, no check was asked.
  const bool proven = verdict.is_clear() && standing.settings == Standing::Settings::proven;
  return proven ? Worth::proven : Worth::unproven;
}

std::string_view reason_of(const Verdict& verdict) {
  for (const Reason& reason : reasons)
    if (verdict.findings.has(reason.kind)) return reason.words;
  return verdict.is_clear() ? "sound" : words_of(verdict.looks);
}

}  // namespace rtcmend
