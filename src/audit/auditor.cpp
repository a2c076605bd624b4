#include "audit/auditor.h"

#include <algorithm>
#include <cstring>

#include "audit/quick_clock.h"
#include "audit/quick_evidence.h"
#include "audit/quick_layout.h"
#include "check/sweep.h"
#include "chip/registers.h"
#include "identify/alike.h"
#include "identify/evidence.h"
#include "identify/identify.h"
#include "judge/credence.h"
#include "judge/misreads.h"

namespace rtcmend {

namespace {

/// All bytes of an image anded and ored together.
struct Lines {
  std::uint8_t always = 0xFF, ever = 0x00;
};

Lines lines_of(const Image& image) {
  Lines lines;
  for (const std::uint8_t byte : image.bytes()) {
    lines.always &= byte;
    lines.ever |= byte;
  }
  return lines;
}

/// Whether some byte differs from the one whose address differs in that line alone, which rules a
/// stuck line out. Bytes that may differ between two reads are passed over.
bool uses_line(const Image& image, unsigned line) {
  const unsigned bit = 1U << line;
  for (unsigned i = 0; i < image.size(); ++i)
    if ((i & bit) == 0 && i != reg::seconds && i != reg::c &&
        image[static_cast<Address>(i)] != image[static_cast<Address>(i | bit)])
      return true;
  return false;
}

bool uses_every_line(const Image& image) {
  for (unsigned line = 0; 1U << line < image.size(); ++line)
    if (!uses_line(image, line)) return false;
  return true;
}

bool ram_says_something(const Image& image) {
  const auto ram = image.bytes().subspan(Image::ram_start);
  return std::memcmp(ram.data(), ram.data() + 1, ram.size() - 1) != 0;
}

/// The bits of a layout's checks when all that count hold; 0 otherwise.
double proven_by(std::span<const CheckResult> checks) {
  double bits = 0;
  for (const CheckResult& result : checks) {
    if (!result.counts) continue;
    if (!result.ok()) return 0;
    bits += width(*result.check);
  }
  return bits;
}

/// Whether health() surely finds nothing, whichever layouts it may ask. `proven`: the bits of a
/// layout all of whose checks hold.
bool surely_healthy(const Image& image, const QuickClock::Answer& clock, double proven) {
  const Lines lines = lines_of(image);
  return clock.least_credence + proven >= makes_sense && lines.always == 0 &&
         (lines.ever == 0xFF || proven >= proven_right) && ram_says_something(image) &&
         uses_every_line(image);
}

}  // namespace

/// All that is needed to judge images of one size.
class Auditor::Bench {
 public:
  Bench(const AuditRules& rules, std::size_t size)
      : rules_(rules),
        layouts_(of_size(rules, size)),
        sweep_(checks_of(layouts_)),
        evidence_(rules.named == nullptr ? layouts_ : std::vector<const Layout*>()),
        only_(rules.named != nullptr ? rules.named : only_one_of_size(rules.layouts, size)) {
    std::size_t first = 0;
    for (const Layout* layout : layouts_) {
      judges_.push_back({QuickLayout(*layout, fields_, date_for(*layout)), first});
      first += layout->checks.size();
    }
  }

  Verdict judge(const Image& image) {
    const QuickClock::Answer clock = clock_(image);
    const auto results = sweep_(image);
    const auto checks_of = [&](std::size_t layout) {
      return results.subspan(judges_[layout].first_check, layouts_[layout]->checks.size());
    };
    const Layout* layout = only_ != nullptr ? only_ : identified(image, clock, checks_of);
    const auto found = std::find(layouts_.begin(), layouts_.end(), layout);
    if (found == layouts_.end()) {
      if (!surely_healthy(image, clock, 0)) return judge_plainly(image, rules_);
      return {};
    }
    const auto index = static_cast<std::size_t>(found - layouts_.begin());
    const auto checks = checks_of(index);
    if (!surely_healthy(image, clock, proven_by(checks))) return judge_plainly(image, rules_);
    return {layout, judges_[index].judge(image, clock, checks)};
  }

 private:
  struct Judge {
    QuickLayout judge;
    std::size_t first_check;
  };

  static std::vector<const Layout*> of_size(const AuditRules& rules, std::size_t size) {
    if (rules.named != nullptr) {
      if (rules.named->size != size) return {};
      return {rules.named};
    }
    std::vector<const Layout*> layouts;
    for (const Layout& layout : rules.layouts)
      if (layout.size == size) layouts.push_back(&layout);
    return layouts;
  }

  static std::vector<const Check*> checks_of(const std::vector<const Layout*>& layouts) {
    std::vector<const Check*> checks;
    for (const Layout* layout : layouts)
      for (const Check& check : layout->checks) checks.push_back(&check);
    return checks;
  }

  template <typename ChecksOf>
  const Layout* identified(const Image& image, const QuickClock::Answer& clock,
                           const ChecksOf& checks_of) {
    const double chip_bits =
        clock.least_credence >= most_for_a_chip ? most_for_a_chip : evidence_of_chip(image).bits;
    evidence_.look_at(image);
    std::vector<Score> scores;
    scores.reserve(layouts_.size());
    for (std::size_t i = 0; i < layouts_.size(); ++i)
      scores.push_back(score(*layouts_[i], weigh_checks(checks_of(i), image),
                             evidence_.bits(i, image, checks_of(i)), chip_bits));
    return clear_one(rank(std::move(scores)), [&](const Layout& plain, const Layout& other) {
      return stands_in(plain, other, image, checks_of);
    });
  }

  /// can_stand_in() rests on the two layouts, on how their checks stand, and on which come to the
  /// same.
  template <typename ChecksOf>
  bool stands_in(const Layout& plain, const Layout& other, const Image& image,
                 const ChecksOf& checks_of) {
    constexpr std::size_t most_checks = 4;  // of each: 2 * 8 + 8 * 3 + 4 * 4 bits
    if (plain.checks.size() > most_checks || other.checks.size() > most_checks)
      return can_stand_in(plain, other, image);
    const std::size_t first = index_of(plain), second = index_of(other);
    std::uint64_t key = first << 8 | second;
    for (const auto results : {checks_of(first), checks_of(second)})
      for (const CheckResult& result : results)
        key = key << 3 | std::uint64_t{result.counts} | std::uint64_t{result.blank} << 1 |
              std::uint64_t{result.stored == result.computed} << 2;
    for (const CheckResult& one : checks_of(first))
      for (const CheckResult& own : checks_of(second))
        key = key << 1 | std::uint64_t{one.computed == own.computed};
    return stand_ins_(key, [&] { return can_stand_in(plain, other, image); });
  }

  QuickDate& date_for(const Layout& layout) {
    for (const auto& date : dates_)
      if (date->is_for(layout)) return *date;
    return *dates_.emplace_back(std::make_unique<QuickDate>(layout));
  }

  std::size_t index_of(const Layout& layout) const {
    return static_cast<std::size_t>(std::find(layouts_.begin(), layouts_.end(), &layout) -
                                    layouts_.begin());
  }

  const AuditRules& rules_;
  std::vector<const Layout*> layouts_;
  Sweep sweep_;
  QuickClock clock_;
  QuickFields fields_;
  std::vector<std::unique_ptr<QuickDate>> dates_;
  QuickEvidence evidence_;
  const Layout* only_;  ///< needs no identifying
  std::vector<Judge> judges_;
  Recall<bool> stand_ins_;
};

Auditor::Auditor(const AuditRules& rules) : rules_(rules) {}

Auditor::~Auditor() = default;

Verdict Auditor::judge(const Image& image) {
  if (!image.all_known()) return judge_plainly(image, rules_);
  auto& bench = image.size() == Image::small_size ? small_ : large_;
  if (!bench) bench = std::make_unique<Bench>(rules_, image.size());
  return bench->judge(image);
}

}  // namespace rtcmend
