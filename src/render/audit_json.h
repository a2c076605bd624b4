#pragma once

#include <string>

#include "render/audit_lines.h"

namespace rtcmend {

/// One object a line: `path`, `member` or `number` where there is one, `layout` (null when
/// unclear), `sound` (null when it cannot be said), `findings` [ids], `error` (null, or a
/// sentence). The last line has one key, `summary`.
class AuditJson : public AuditLines {
 public:
  Wording wording(const Verdict& verdict) const override;
  std::string name(const AuditSubject& subject) const override;
  void add_number(std::size_t number, std::string& line) const override;
  std::string broken(const AuditSubject& subject, const std::string& trouble) const override;
  std::string summary(const AuditTally& tally, bool complete) const override;
};

}  // namespace rtcmend
