#pragma once

#include <string>

#include "render/audit_lines.h"

namespace rtcmend {

/// A table for a spreadsheet (RFC 4180): a heading and a row a dump, nothing else. A name that a
/// spreadsheet would take for a formula gets an apostrophe in front.
class AuditCsv : public AuditLines {
 public:
  std::string heading() const override;
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
