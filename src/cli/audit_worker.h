#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "audit/auditor.h"
#include "audit/settings_key.h"
#include "audit/worth.h"
#include "cli/audit_sources.h"
#include "render/audit_lines.h"

namespace rtcmend {

/// One line of an audit, as far as it can be written without those before it.
struct AuditRow {
  std::size_t begin = 0, name_at = 0, end = 0;  ///< in the batch's text
  std::optional<Worth> worth;                   ///< nothing = it holds no dump
  std::optional<SettingsKey> settings;          ///< to find copies by
  std::string sorted_by;                        ///< filled in when somebody asks for it
};

/// What became of a batch.
struct AuditBatchResult {
  std::string text;  ///< the rows' lines one behind the other, without beginning and end
  std::vector<AuditRow> rows;
  AuditCounter counter;
};

/// What `sorted_by` is to hold.
enum class SortedBy { nothing, name, layout };

/// A thread's part of an audit: reads, judges, and writes down.
class AuditWorker {
 public:
  struct Order {
    const AuditRules& rules;
    const AuditLines& lines;
    std::size_t image_size;  ///< of packed files; 0 = the files are dumps
    KeySecret secret;
    SortedBy sorted_by;
  };
  /// What the order refers to must outlive it.
  explicit AuditWorker(const Order& order);

  AuditBatchResult operator()(const AuditBatch& batch);

 private:
  void audit(const FileBatch& batch, AuditBatchResult& result);
  void audit(const MemberBatch& batch, AuditBatchResult& result);
  void audit(const PackedBatch& batch, AuditBatchResult& result);
  void audit(const BrokenBatch& batch, AuditBatchResult& result);
  void audit_dump(const AuditSubject& subject, std::string_view content, AuditBatchResult& result);

  /// A dump with its verdict.
  struct Judged {
    const Image& image;
    const Verdict& verdict;
  };
  void add(const AuditSubject& subject, const std::string& name, const Judged& judged,
           AuditBatchResult& result);
  void add_no_dump(const AuditSubject& subject, const std::string& trouble,
                   AuditBatchResult& result);
  const AuditLines::Wording& words_for(const Verdict& verdict);
  std::string sort_key(const AuditSubject& subject, const Verdict* verdict) const;

  struct HashOfVerdict {
    std::size_t operator()(const Verdict& verdict) const {
      // Few layouts come up, and what is equal must have one hash: the length of the name will do.
      const std::size_t layout = verdict.is_clear() ? verdict.layout->id.size() : 0;
      return std::hash<std::uint64_t>{}(verdict.findings.bits) ^ layout << 56;
    }
  };

  Auditor auditor_;
  SettingsKeys keys_;
  Order order_;
  std::unordered_map<Verdict, AuditLines::Wording, HashOfVerdict> wordings_;
};

}  // namespace rtcmend
