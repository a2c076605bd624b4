#pragma once

#include <array>
#include <cstddef>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "audit/finding_set.h"
#include "base/image.h"
#include "layout/layout.h"

namespace rtcmend {

/// What an image looks like for which no layout is clear.
enum class Looks {
  sensible,  ///< a chip's bytes, whose checks nobody here knows
  noise,     ///< neither the clock nor any check makes sense
  half_read  ///< RAM bytes are unknown
};

/// What an audit says of one image.
struct Verdict {
  /// Null: none is clearly the right one, and nothing is judged.
  std::shared_ptr<const Layout> layout;
  FindingSet findings;  ///< without a layout, those about the dump as a whole
  Looks looks = Looks::sensible;

  bool is_clear() const { return layout != nullptr; }
  bool is_sound() const {
    return is_clear() && standing_of(findings).is_good() && !has_fault(findings);
  }

  friend bool operator==(const Verdict& a, const Verdict& b) {
    if (a.findings != b.findings || a.looks != b.looks) return false;
    if (a.layout == b.layout) return true;
    return a.is_clear() && b.is_clear() && a.layout->id == b.layout->id;
  }
};

/// What an audit judges by, beside what is built in.
struct AuditRules {
  std::vector<Layout> own;              ///< layouts of one's own
  std::shared_ptr<const Layout> named;  ///< judge by this one alone; null = identify each image
};

/// The verdict put together from what verify says: identify(), examine() and health(), with all
/// their words. What the fast way is held against, and what it falls back on.
Verdict judge_plainly(const Image& image, const AuditRules& rules);

/// How often what was seen.
struct AuditTally {
  /// By what they are worth (worth.h).
  struct Count {
    std::size_t proven = 0, unproven = 0, broken = 0;
  };
  Count worth;
  std::size_t sound = 0;    ///< of the proven ones
  std::size_t no_dump = 0;  ///< files that hold no dump, or could not be read
  std::size_t copies = 0;   ///< dumps with the settings of one before them
  std::map<std::string, Count, std::less<>> by_layout;
  std::map<std::string, std::size_t, std::less<>> by_finding;

  std::size_t dumps() const { return worth.proven + worth.unproven + worth.broken; }
  bool all_sound() const { return sound == dumps() && no_dump == 0; }
};

/// Both together.
AuditTally sum(AuditTally one, const AuditTally& other);

/// Counts verdicts quickly; turn it into words at the end.
class AuditCounter {
 public:
  void add(const Verdict& verdict);
  void add_no_dump() { ++no_dump_; }
  AuditTally tally() const;

 private:
  struct LayoutCount {
    std::shared_ptr<const Layout> layout;
    AuditTally::Count count;
  };
  LayoutCount& count_of(const std::shared_ptr<const Layout>& layout);

  AuditTally::Count unclear_;
  std::size_t sound_ = 0, no_dump_ = 0;
  std::vector<LayoutCount> layouts_;
  std::array<std::size_t, finding_kinds.size()> findings_{};
};

}  // namespace rtcmend
