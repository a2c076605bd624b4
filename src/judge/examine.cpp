#include "judge/examine.h"

#include <algorithm>
#include <fmt/format.h>
#include <functional>
#include <iterator>
#include <tuple>
#include <utility>

#include "base/error.h"
#include "judge/findings.h"

namespace rtcmend {

namespace {

/// Worst first, then by address. A fault of no byte in particular is one of the whole dump and
/// comes before all: while it stands, nothing below can be believed. Others of no byte come last of
/// their kind.
bool comes_before(const Finding& a, const Finding& b) {
  const auto key = [](const Finding& finding) {
    const bool whole_dump = finding.at.empty() && finding.is_fault();
    const Address first = finding.at.empty() ? Address{0xFF} : finding.at.front();
    return std::tuple(!whole_dump, finding.severity(), first);
  };
  return key(a) < key(b);
}

void append(std::vector<Finding>& all, std::vector<Finding> some) {
  std::move(some.begin(), some.end(), std::back_inserter(all));
}

}  // namespace

std::vector<CheckResult> evaluate_all(const Layout& layout, const Image& image) {
  std::vector<CheckResult> results;
  for (const Check& check : layout.checks) results.push_back(evaluate(check, image));
  return taken_together(std::move(results));
}

std::vector<CheckResult> taken_together(std::vector<CheckResult> results) {
  const bool proven = std::any_of(results.begin(), results.end(), [](const CheckResult& result) {
    return result.counts && result.ok();
  });
  if (proven)
    for (CheckResult& result : results) result.blank = false;
  return results;
}

Examination examine(const Image& image, const Layout& layout) {
  if (image.size() < layout.size)
    refuse(layout.id, fmt::format("this layout needs {} bytes, and the image has {}", layout.size,
                                  image.size()));
  Examination examination;
  examination.clock = read_clock(image, century_in(layout, image));
  for (const Field& field : layout.fields) examination.fields.push_back(read_field(field, image));
  examination.checks = evaluate_all(layout, image);

  std::vector<Finding>& findings = examination.findings;
  append(findings, check_findings(examination.checks, image));
  append(findings, register_findings(image));
  append(findings, clock_findings(examination.clock, image));
  append(findings, mode_findings(layout, image));
  append(findings, century_findings(examination.clock, layout, image));
  append(findings, field_findings(examination.fields, examination.checks, image));
  append(findings, relation_findings(examination.fields, layout, image));
  // What holds no configuration describes no machine.
  const bool blank = std::any_of(findings.begin(), findings.end(), [](const Finding& finding) {
    return finding.kind == FindingKind::blank;
  });
  if (!blank) append(findings, machine_findings(layout, image));
  return with_findings(std::move(examination), {});
}

Examination with_findings(Examination examination, const std::vector<Finding>& more) {
  std::vector<Finding>& findings = examination.findings;
  append(findings, more);
  std::stable_sort(findings.begin(), findings.end(), comes_before);

  examination.standing = standing_of(findings);
  // Whatever else a misread dump seems to say, there is one thing to do about it.
  if (examination.standing.dump == Standing::Dump::misread)
    for (Finding& finding : findings)
      if (finding.family() != Family::reading) finding.advice = {};
  examination.sound =
      examination.standing.is_good() &&
      std::none_of(findings.begin(), findings.end(), std::mem_fn(&Finding::is_fault));
  return examination;
}

}  // namespace rtcmend
