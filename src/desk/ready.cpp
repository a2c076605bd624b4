#include "desk/ready.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "judge/health.h"
#include "judge/part_findings.h"

namespace rtcmend {

namespace {

bool stops(const Finding& finding, const Leaving& leaving) {
  switch (finding.effect()) {
    case Effect::misread:
    case Effect::doubted:
    case Effect::broken:
    case Effect::unproven:
      return true;
    case Effect::unset:
    case Effect::stopped:
      return leaving.writes_clock;
    case Effect::none:
      break;
  }
  return finding.family() == Family::part && finding.is_fault();
}

/// A code that no list has, for which no check vouched until the image was sealed.
bool is_vouched_by_sealing(const Finding& finding, const std::vector<Finding>& before) {
  return finding.kind == FindingKind::field_unlisted &&
         std::any_of(before.begin(), before.end(), [&](const Finding& other) {
           return other.kind == FindingKind::field_illegal && other.at == finding.at;
         });
}

}  // namespace

bool is_misread(const std::vector<Finding>& reading) {
  return standing_of(reading).dump == Standing::Dump::misread;
}

Readiness readiness(const Image& image, const Layout& layout, const std::vector<Finding>& reading,
                    const Leaving& leaving) {
  Readiness ready;
  ready.examination = examine_changed(image, layout, reading);
  if (leaving.part != nullptr)
    ready.examination =
        with_findings(std::move(ready.examination), part_findings(image, layout, *leaving.part));
  const std::vector<Finding>& findings = ready.examination.findings;
  std::vector<Finding> before;
  if (leaving.before != nullptr) before = examine(*leaving.before, layout).findings;
  std::copy_if(findings.begin(), findings.end(), std::back_inserter(ready.obstacles),
               [&](const Finding& finding) {
                 return stops(finding, leaving) || is_vouched_by_sealing(finding, before);
               });
  ready.misread = is_misread(reading);
  return ready;
}

void need_ready(const Readiness& readiness, const std::string& name) {
  if (readiness.is_ready()) return;
  std::vector<std::string> reasons;
  for (const Finding& obstacle : readiness.obstacles)
    if (!readiness.misread || obstacle.family() == Family::reading)
      reasons.push_back(fmt::format("{}: {}", obstacle.id(), obstacle.text));
  const Act insist{Act::Kind::choose, "unsound-anyway", {}};
  if (readiness.misread)
    refuse(
        name, "nothing was written, because the dump was misread: " + join(reasons, "; "),
        {{"Read the chip again; no change of bytes makes up for that. To write them all the same",
          insist}});
  refuse(name, "nothing was written, because the image would not be sound: " + join(reasons, "; "),
         {{"Mend what is named, or write it all the same", insist}});
}

}  // namespace rtcmend
