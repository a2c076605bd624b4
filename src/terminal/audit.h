#pragma once

#include <string>

#include "render/audit_lines.h"
#include "terminal/ink.h"

namespace rtcmend {

/// For people: a table on 80 columns.
class AuditText : public AuditLines {
 public:
  /// What becomes of a line that is too long.
  enum class Width {
    page,  ///< names are shortened in the middle
    whole  ///< it is as long as it is, and has the ids of what was found
  };

  explicit AuditText(const Ink& ink, Width width = Width::page);
  std::string heading() const override;
  Wording wording(const Verdict& verdict) const override;
  std::string name(const AuditSubject& subject) const override;
  void add_number(std::size_t number, std::string& line) const override;
  std::string no_dump(const AuditSubject& subject, const std::string& trouble) const override;
  void open(std::size_t line, std::string& text) const override;
  void close(std::optional<std::size_t> copy_of, std::size_t name_at,
             std::string& text) const override;
  std::string summary(const AuditEnd& end) const override;

 private:
  std::string id_of(const Layout& layout, std::size_t most) const;

  Ink ink_;
  Width width_;
  std::string proven_, unproven_, broken_, no_dump_;
};

}  // namespace rtcmend
