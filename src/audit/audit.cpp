#include "audit/audit.h"

#include <algorithm>
#include <bit>

#include "audit/worth.h"
#include "identify/identify.h"
#include "judge/credence.h"
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

bool lacks_ram(const Image& image) {
  for (std::size_t at = Image::ram_start; at < image.size(); ++at)
    if (!image.known(static_cast<Address>(at))) return true;
  return false;
}

Looks looks_of(const Image& image, const std::vector<Layout>& layouts) {
  if (lacks_ram(image)) return Looks::half_read;
  return credence(image, layouts) < 0 ? Looks::noise : Looks::sensible;
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
  if (!layout) return {nullptr, set_of(health(image, others)), looks_of(image, others)};
  const Examination judged = examine_whole(image, *layout, [&] { return std::span(others); });
  return {std::move(layout), set_of(judged.findings), Looks::sensible};
}

namespace {

void add(const AuditTally::Count& more, AuditTally::Count& to) {
  to.proven += more.proven;
  to.unproven += more.unproven;
  to.broken += more.broken;
}

void count_in(Worth worth, AuditTally::Count& count) {
  switch (worth) {
    case Worth::proven:
      ++count.proven;
      return;
    case Worth::unproven:
      ++count.unproven;
      return;
    case Worth::broken:
      ++count.broken;
  }
}

}  // namespace

AuditTally sum(AuditTally one, const AuditTally& other) {
  add(other.worth, one.worth);
  one.sound += other.sound;
  one.no_dump += other.no_dump;
  one.copies += other.copies;
  for (const auto& [id, count] : other.by_layout) add(count, one.by_layout[id]);
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
  count_in(worth_of(verdict), verdict.is_clear() ? count_of(verdict.layout).count : unclear_);
  if (verdict.is_sound()) ++sound_;
}

AuditTally AuditCounter::tally() const {
  AuditTally tally;
  tally.worth = unclear_;
  tally.sound = sound_;
  tally.no_dump = no_dump_;
  for (const LayoutCount& one : layouts_) {
    rtcmend::add(one.count, tally.by_layout[one.layout->id]);
    rtcmend::add(one.count, tally.worth);
  }
  for (std::size_t i = 0; i < findings_.size(); ++i)
    if (findings_[i] != 0) tally.by_finding[std::string(finding_kinds[i].id)] = findings_[i];
  return tally;
}

}  // namespace rtcmend
