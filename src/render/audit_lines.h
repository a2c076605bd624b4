#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "audit/audit.h"

namespace rtcmend {

/// Which image a line of an audit is about.
struct AuditSubject {
  std::string path;
  std::string member;                 ///< of an archive; empty = the path is the dump itself
  std::optional<std::size_t> number;  ///< of an image in a packed file, from 0
};

/// How the lines of an audit are written. All end with a line feed, and show nothing of a name or
/// a message that could upset a terminal.
class AuditLines {
 public:
  /// What a verdict puts before and behind the name of its dump: the same for every dump, so that
  /// it can be kept.
  struct Wording {
    std::string before, behind;
  };

  virtual ~AuditLines() = default;
  virtual Wording wording(const Verdict& verdict) const = 0;
  /// The name of a dump, but for the number of an image in a packed file, which is added behind it.
  virtual std::string name(const AuditSubject& subject) const = 0;
  virtual void add_number(std::size_t number, std::string& line) const = 0;
  /// What holds no dump, or could not be read; `trouble` says why.
  virtual std::string broken(const AuditSubject& subject, const std::string& trouble) const = 0;
  /// The end: counts by standing, layout and finding. `complete` false = it was stopped before.
  virtual std::string summary(const AuditTally& tally, bool complete) const = 0;
};

/// Whether a text can stand between quotation marks as it is: printable ASCII, and none of " and \.
bool is_plain(std::string_view text);
/// A number in decimal digits, behind what the line says already.
void add_digits(std::size_t number, std::string& line);

}  // namespace rtcmend
