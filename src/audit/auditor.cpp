#include "audit/auditor.h"

#include <algorithm>
#include <bitset>
#include <cstring>
#include <utility>
#include <vector>

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
        pieces_(size, rules.own),
        sweep_(pieces_.all_checks()),
        evidence_(pieces_.all()) {
    if (rules.named && rules.named->size <= size)
      named_ = std::make_unique<Judge>(*this, rules.named);
  }

  Verdict judge(const Image& image) {
    const QuickClock::Answer clock = clock_(image);
    const auto [clear, judge] =
        rules_.named ? Recognised{named_ != nullptr, named_.get()} : identified(image, clock);
    if (clear && judge == nullptr) return judge_plainly(image, rules_);
    if (!clear) {
      if (!surely_healthy(image, clock, 0)) return judge_plainly(image, rules_);
      return {};
    }
    const auto checks = judge->sweep(image);
    if (!surely_healthy(image, clock, proven_by(checks))) return judge_plainly(image, rules_);
    return {judge->layout, judge->judge(image, clock, checks), Looks::sensible};
  }

 private:
  /// Of more different layouts than this the rest is judged plainly: memory shall stay flat.
  static constexpr std::size_t most_judges = 256;

  /// A layout that images were found to have.
  struct Judge {
    Judge(Bench& bench, std::shared_ptr<const Layout> by)
        : layout(std::move(by)),
          judge(*layout, bench.fields_, bench.date_for(*layout)),
          sweep(pointers_to(layout->checks)) {}

    std::shared_ptr<const Layout> layout;
    QuickLayout judge;
    Sweep sweep;
  };
  /// The piece that stands for the layout, and the traits beside it, by their places among the
  /// pieces: 128 are enough for what is built in, and layouts of one's own have no traits.
  struct Key {
    const Piece* whole;
    std::bitset<128> traits;
    bool operator==(const Key&) const = default;
  };

  /// What is found by the quick means.
  class AtHand : public EvidenceAtHand {
   public:
    AtHand(Bench& bench, const Image& image, const QuickClock::Answer& clock)
        : EvidenceAtHand(image, bench.sweep_(image),
                         clock.least_credence >= most_for_a_chip ? most_for_a_chip
                                                                 : evidence_of_chip(image).bits),
          bench_(bench) {
      bench.evidence_.look_at_next();
    }

    double field_bits(const Piece& piece) override {
      return bench_.evidence_.bits(bench_.index_of(piece), *this);
    }
    bool alike(const Piece& plain, const Piece& other) override {
      return bench_.stands_in(plain, other, *this);
    }

   private:
    Bench& bench_;
  };

  static std::vector<const Check*> pointers_to(const std::vector<Check>& checks) {
    std::vector<const Check*> pointers;
    for (const Check& check : checks) pointers.push_back(&check);
    return pointers;
  }

  std::size_t index_of(const Piece& piece) const { return pieces_.index_of(piece); }

  /// What an image was found to be: nothing clear, or clear, and then judged by `judge` unless that
  /// is one layout more than are kept.
  struct Recognised {
    bool clear = false;
    Judge* judge = nullptr;
  };

  Recognised identified(const Image& image, const QuickClock::Answer& clock) {
    AtHand evidence(*this, image, clock);
    const Identified found = find_out(pieces_, evidence, OpenTies::untold);
    if (found.clear == nullptr) return {};
    Key key{found.clear, {}};
    for (const FamilyAnswer& answer : found.families)
      if (answer.taken != nullptr) key.traits.set(index_of(*answer.taken));
    for (const auto& [known, judge] : judges_)
      if (known == key) return {true, judge.get()};
    if (judges_.size() >= most_judges) return {true, nullptr};
    auto layout = std::make_shared<const Layout>(layout_of(*found.clear, found.traits()));
    judges_.emplace_back(key, std::make_unique<Judge>(*this, std::move(layout)));
    return {true, judges_.back().second.get()};
  }

  /// can_stand_in() rests on the two layouts, on how their checks stand, and on which come to the
  /// same.
  bool stands_in(const Piece& plain, const Piece& other, const EvidenceAtHand& evidence) {
    const Image& image = evidence.image();
    constexpr std::size_t most_checks = 4;  // of each: 2 * 8 + 8 * 3 + 4 * 4 bits
    const auto own = evidence.checks(plain), theirs = evidence.checks(other);
    if (own.size() > most_checks || theirs.size() > most_checks)
      return can_stand_in(*plain.layout, *other.layout, image);
    std::uint64_t key = index_of(plain) << 8 | index_of(other);
    for (const auto results : {own, theirs})
      for (const CheckResult& result : results)
        key = key << 3 | std::uint64_t{result.counts} | std::uint64_t{result.blank} << 1 |
              std::uint64_t{result.stored == result.computed} << 2;
    for (const CheckResult& one : own)
      for (const CheckResult& another : theirs)
        key = key << 1 | std::uint64_t{one.computed == another.computed};
    return stand_ins_(key, [&] { return can_stand_in(*plain.layout, *other.layout, image); });
  }

  QuickDate& date_for(const Layout& layout) {
    for (const auto& date : dates_)
      if (date->is_for(layout)) return *date;
    return *dates_.emplace_back(std::make_unique<QuickDate>(layout));
  }

  const AuditRules& rules_;
  Pieces pieces_;
  Sweep sweep_;
  QuickClock clock_;
  QuickFields fields_;
  std::vector<std::unique_ptr<QuickDate>> dates_;
  QuickEvidence evidence_;
  std::unique_ptr<Judge> named_;
  std::vector<std::pair<Key, std::unique_ptr<Judge>>> judges_;
  Recall<bool> stand_ins_;
};

Auditor::Auditor(const AuditRules& rules) : rules_(rules) {}

Auditor::~Auditor() = default;

Verdict Auditor::judge(const Image& image) {
  // What lacks bytes, or holds its bytes twice, is rare.
  if (!image.all_known() || halves_mirror(image)) return judge_plainly(image, rules_);
  auto& bench = image.size() == Image::small_size ? small_ : large_;
  if (!bench) bench = std::make_unique<Bench>(rules_, image.size());
  return bench->judge(image);
}

}  // namespace rtcmend
