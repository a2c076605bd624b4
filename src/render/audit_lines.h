#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "audit/audit.h"

namespace rtcmend {

/// Which image a line of an audit is about.
struct AuditSubject {
  std::string path;
  std::string member;                 ///< of an archive; empty = the path is the dump itself
  std::optional<std::size_t> number;  ///< of an image in a packed file, from 0
};

/// What an audit met on its way that gave no line.
struct AuditAside {
  std::size_t leftovers = 0;          ///< files that file managers and archivers leave behind
  std::size_t links_passed_over = 0;  ///< inside the folders
  /// Paths that were given and are links, each with where it leads.
  std::vector<std::pair<std::string, std::string>> followed;
};

/// All that the end of an audit tells.
struct AuditEnd {
  AuditTally tally;
  AuditAside aside;
  std::shared_ptr<const Layout> named;  ///< that all were judged by; null = each was identified
  bool complete = true;                 ///< false = it was stopped before
  bool copies_untold = false;           ///< there were more different dumps than can be remembered
};

/// How the lines of an audit are written. They show nothing of a name or a message that could upset
/// a terminal. A line is put together of: open(), the wording's `before`, name(), the wording's
/// `behind`, and close().
class AuditLines {
 public:
  /// What a verdict puts before and behind the name of its dump: the same for every dump, so that
  /// it can be kept.
  struct Wording {
    std::string before, behind;
  };

  virtual ~AuditLines() = default;
  /// What stands above all lines.
  virtual std::string heading() const { return {}; }
  virtual Wording wording(const Verdict& verdict) const = 0;
  /// The name of a dump, but for the number of an image in a packed file, which is added behind it.
  virtual std::string name(const AuditSubject& subject) const = 0;
  virtual void add_number(std::size_t number, std::string& line) const = 0;
  /// What holds no dump, or could not be read; `trouble` says why. All of a line that stands
  /// between open() and close().
  virtual std::string no_dump(const AuditSubject& subject, const std::string& trouble) const = 0;
  /// Begins the line with its number, from 1.
  virtual void open(std::size_t line, std::string& text) const = 0;
  /// Ends the line, whose name begins at `name_at` of the text; copy_of: the number of the first
  /// line with the same settings.
  virtual void close(std::optional<std::size_t> copy_of, std::size_t name_at,
                     std::string& text) const = 0;
  virtual std::string summary(const AuditEnd& end) const = 0;
};

/// Whether a text can stand between quotation marks as it is: printable ASCII, and none of " and \.
bool is_plain(std::string_view text);
/// A number in decimal digits, behind what the line says already.
void add_digits(std::size_t number, std::string& line);

}  // namespace rtcmend
