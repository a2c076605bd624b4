#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "audit/settings_key.h"
#include "cli/audit_worker.h"
#include "render/audit_lines.h"

namespace rtcmend {

/// The order of an audit's lines.
enum class LineOrder {
  found,   ///< as they come; nothing is held back
  worth,   ///< what is worth keeping first
  name,    ///< of the file
  layout,  ///< by id, those without one last
  copies   ///< every copy behind the first with its settings
};

/// Numbers the lines of an audit, recognises copies, and prints what is wanted: as it comes, or at
/// the end when there is an order. Then it holds all lines, some 250 bytes each.
class AuditPrinter {
 public:
  struct Wanted {
    LineOrder order = LineOrder::found;
    std::optional<Worth> only;  ///< nothing = all
  };
  /// named: the layout that all are judged by; null = each is identified.
  AuditPrinter(const AuditLines& lines, const Wanted& wanted,
               std::shared_ptr<const Layout> named = nullptr);

  void take(const AuditBatchResult& result);
  /// Prints what was held back, and the summary.
  void finish(const AuditAside& aside, bool complete);

  /// How many lines there were, printed or not.
  std::size_t lines() const { return line_; }
  const AuditTally& tally() const { return tally_; }

 private:
  struct Held {
    std::string text, key;
    std::optional<Worth> worth;
    std::size_t line, group;
  };

  bool is_wanted(const AuditRow& row) const;
  /// Puts the row's whole line behind a text.
  void add_line(const AuditBatchResult& result, const AuditRow& row,
                std::optional<std::size_t> copy_of, std::string& text) const;

  const AuditLines& lines_;
  Wanted wanted_;
  std::shared_ptr<const Layout> named_;
  std::size_t line_ = 0;
  Copies copies_;
  AuditTally tally_;
  std::vector<Held> held_;
};

}  // namespace rtcmend
