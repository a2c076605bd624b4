#pragma once

#include <string>

#include "render/audit_lines.h"

namespace rtcmend {

/// One object a line: `line`, `path`, `member` or `number` where there is one, `layout` (null when
/// unclear), `sound` (null when it cannot be said), `worth` and `reason` (null where there is no
/// dump), `standing`, `findings` [ids], `error` (null, or a sentence), `copy_of` (null, or the line
/// of the first dump with the same settings). The last line has one key, `summary`.
class AuditJson : public AuditLines {
 public:
  Wording wording(const Verdict& verdict) const override;
  std::string name(const AuditSubject& subject) const override;
  void add_number(std::size_t number, std::string& line) const override;
  std::string no_dump(const AuditSubject& subject, const std::string& trouble) const override;
  void open(std::size_t line, std::string& text) const override;
  void close(std::optional<std::size_t> copy_of, std::size_t name_at,
             std::string& text) const override;
  std::string summary(const AuditEnd& end) const override;
};

}  // namespace rtcmend
