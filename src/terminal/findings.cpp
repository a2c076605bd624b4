#include "terminal/findings.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "render/check_words.h"
#include "render/words.h"
#include "terminal/advice.h"
#include "terminal/columns.h"

namespace rtcmend {

namespace {

Tone tone_of(Severity severity) {
  if (severity == Severity::fault) return Tone::bad;
  return severity == Severity::doubt ? Tone::doubtful : Tone::quiet;
}

std::string digits(const CheckResult& result, std::uint16_t value) {
  return check_digits(*result.check, value);
}

std::string standing(const CheckResult& result, const Ink& ink) {
  if (!result.counts) return ink(Tone::quiet, "does not count here");
  if (!result.unknown.empty())
    return ink(Tone::doubtful, "cannot be judged: unknown " + to_text(result.unknown));
  if (result.blank) return ink(Tone::bad, "proves nothing: every byte is the same");
  if (result.ok()) return ink(Tone::good, "holds") + "  " + digits(result, *result.stored);
  return ink(Tone::bad, "FAILS") + fmt::format("  stored {}, should be {}",
                                               digits(result, *result.stored),
                                               digits(result, *result.computed));
}

std::string check_line(const CheckResult& result, const Ink& ink) {
  const Check& check = *result.check;
  const std::string what =
      printable(fmt::format("{}: {} over {}", check.id, describe(check), covered_text(check)));
  std::string line = fmt::format("  {:<8} {}", narrow(stored_addresses(check)), hanging(what, 11));
  return line + "\n" + std::string(11, ' ') + standing(result, ink) + "\n";
}

std::string finding_lines(const Finding& finding, const Ink& ink) {
  std::string head = printable(finding.id());
  if (!finding.at.empty()) head += " at " + to_prose(finding.at);
  std::string text = fmt::format(
      "  {} {}\n", ink(tone_of(finding.severity()), fmt::format("{:<8}", name(finding.severity()))),
      ink(Tone::strong, hanging(head, 11)));
  text += std::string(11, ' ') + hanging(finding.text, 11) + "\n";
  if (!finding.advice.empty())
    text += std::string(11, ' ') + hanging("Do: " + advice_text(finding.advice), 11) + "\n";
  return text;
}

}  // namespace

std::string verdict(const Standing& standing, const std::vector<Finding>& findings, const Ink& ink,
                    std::size_t column) {
  const bool broken =
      standing.dump == Standing::Dump::misread || standing.settings == Standing::Settings::broken;
  const Tone tone = standing.is_good() ? Tone::good : broken ? Tone::bad : Tone::doubtful;
  return ink(tone, hanging(verdict(standing, findings), column));
}

std::string checks_text(const std::vector<CheckResult>& checks, const Ink& ink) {
  std::string text = ink(Tone::strong, "Checks") + "\n";
  if (checks.empty()) return text + "  none: this layout has no rule that ties bytes together\n";
  for (const CheckResult& result : checks) text += check_line(result, ink);
  return text;
}

std::string findings_text(const std::vector<Finding>& findings, const Ink& ink) {
  if (findings.empty()) return {};
  std::string text = ink(Tone::strong, "Findings") + "\n";
  for (const Finding& finding : findings) text += finding_lines(finding, ink);
  return text;
}

}  // namespace rtcmend
