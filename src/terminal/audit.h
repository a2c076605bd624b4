#pragma once

#include <string>

#include "render/audit_lines.h"
#include "terminal/ink.h"

namespace rtcmend {

/// For people.
class AuditText : public AuditLines {
 public:
  explicit AuditText(const Ink& ink);
  Wording wording(const Verdict& verdict) const override;
  std::string name(const AuditSubject& subject) const override;
  void add_number(std::size_t number, std::string& line) const override;
  std::string broken(const AuditSubject& subject, const std::string& trouble) const override;
  std::string summary(const AuditTally& tally, bool complete) const override;

 private:
  Ink ink_;
  std::string sound_, unsound_, unclear_, broken_;
};

}  // namespace rtcmend
