#include "audit/audit.h"

#include <algorithm>
#include <bit>

#include "identify/identify.h"
#include "judge/examine.h"
#include "judge/health.h"
#include "judge/misreads.h"
#include "layout/library.h"

namespace rtcmend {

namespace {

/// Every layout whose checks may have something to say about an image of this size.
std::vector<Layout> layouts_about(const Image& image, const AuditRules& rules) {
  std::vector<Layout> all = built_in_checks(image.size());
  all.insert(all.end(), rules.own.begin(), rules.own.end());
  return all;
}

std::shared_ptr<const Layout> layout_for(const Image& image, const AuditRules& rules) {
  if (rules.named) return rules.named->size <= image.size() ? rules.named : nullptr;
  auto clear = recognise(image, rules.own);
  return clear ? std::make_shared<const Layout>(*std::move(clear)) : nullptr;
}

/// 64 bytes that were read twice, and are to be taken once.
bool is_to_be_halved(const Image& image, const AuditRules& rules) {
  return halves_mirror(image) && !(rules.named && rules.named->size == Image::large_size);
}

Verdict judge_half(const Image& half, const AuditRules& rules) {
  Verdict verdict = judge_plainly(half, rules);
  const bool said = standing_of(verdict.findings).dump == Standing::Dump::misread;
  verdict.findings.add(said ? FindingKind::halves_mirrored : half_of_mirror_finding(half).kind);
  return verdict;
}

}  // namespace

Verdict judge_plainly(const Image& image, const AuditRules& rules) {
  if (is_to_be_halved(image, rules)) return judge_half(image.with_size(Image::small_size), rules);
  const std::vector<Layout> others = layouts_about(image, rules);
  auto layout = layout_for(image, rules);
  if (!layout) return {nullptr, set_of(health(image, others))};
  const Examination judged = examine_whole(image, *layout, [&] { return std::span(others); });
  return {std::move(layout), set_of(judged.findings)};
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

AuditCounter::LayoutCount& AuditCounter::count_of(const std::shared_ptr<const Layout>& layout) {
  // Nearly always the very same object; only what was judged plainly has one of its own.
  for (LayoutCount& one : layouts_)
    if (one.layout == layout) return one;
  for (LayoutCount& one : layouts_)
    if (one.layout->id == layout->id) return one;
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
