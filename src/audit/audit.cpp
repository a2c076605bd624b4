#include "audit/audit.h"

#include <algorithm>
#include <bit>

#include "identify/identify.h"
#include "judge/examine.h"
#include "judge/health.h"

namespace rtcmend {

Verdict judge_plainly(const Image& image, const AuditRules& rules) {
  const Layout* layout = rules.named != nullptr ? rules.named : recognise(image, rules.layouts);
  if (layout == nullptr || layout->size != image.size())
    return {nullptr, set_of(health(image, rules.layouts))};
  const Examination judged =
      examine_whole(image, *layout, [&] { return std::span(rules.layouts); });
  return {layout, set_of(judged.findings)};
}

AuditTally sum(AuditTally one, const AuditTally& other) {
  one.sound += other.sound;
  one.unsound += other.unsound;
  one.unclear += other.unclear;
  one.broken += other.broken;
  for (const auto& [id, count] : other.by_layout) {
    one.by_layout[id].sound += count.sound;
    one.by_layout[id].unsound += count.unsound;
  }
  for (const auto& [id, count] : other.by_finding) one.by_finding[id] += count;
  return one;
}

AuditCounter::LayoutCount& AuditCounter::count_of(const Layout* layout) {
  for (LayoutCount& one : layouts_)
    if (one.layout == layout) return one;
  return layouts_.emplace_back(LayoutCount{layout, {}});
}

void AuditCounter::add(const Verdict& verdict) {
  for (std::uint64_t rest = verdict.findings.bits; rest != 0; rest &= rest - 1)
    ++findings_[static_cast<std::size_t>(std::countr_zero(rest))];
  if (!verdict.is_clear()) {
    ++unclear_;
    return;
  }
  AuditTally::Count& count = count_of(verdict.layout).count;
  ++(verdict.is_sound() ? count.sound : count.unsound);
}

AuditTally AuditCounter::tally() const {
  AuditTally tally;
  tally.unclear = unclear_;
  tally.broken = broken_;
  for (const LayoutCount& one : layouts_) {
    tally.by_layout[one.layout->id] = one.count;
    tally.sound += one.count.sound;
    tally.unsound += one.count.unsound;
  }
  for (std::size_t i = 0; i < findings_.size(); ++i)
    if (findings_[i] != 0) tally.by_finding[std::string(finding_kinds[i].id)] = findings_[i];
  return tally;
}

}  // namespace rtcmend
