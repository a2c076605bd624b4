#pragma once

#include <cstddef>
#include <deque>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/archive.h"
#include "base/files.h"
#include "base/tree.h"
#include "render/audit_lines.h"

namespace rtcmend {

/// A piece of an audit's work, small enough that many are under way at once and memory stays flat.
struct FileBatch {
  struct File {
    std::string path;
    bool named = false;  ///< by the user, so that it may be a pipe
  };
  std::vector<File> files;  ///< not read yet
};
struct MemberBatch {
  std::string archive;
  std::vector<Member> members;
};
struct PackedBatch {
  std::string path;
  std::size_t first = 0;  ///< number of the first image
  std::string bytes;      ///< images back to back; a rest that makes no image only at the very end
};
struct BrokenBatch {
  std::string path;
  std::string trouble;
};
using AuditBatch = std::variant<FileBatch, MemberBatch, PackedBatch, BrokenBatch>;

/// Hands out the work of an audit, in the order of the paths as given and of the names inside.
class AuditSource {
 public:
  /// image_size: of packed files; 0 = the files are dumps and archives. Refuses (Error) a path that
  /// leads nowhere.
  /// `stopped` ends an archive in which nothing comes to be judged.
  AuditSource(const std::vector<std::string>& paths, std::size_t image_size,
              std::function<bool()> stopped = {});

  std::optional<AuditBatch> next();

  /// What was met so far that gave no batch.
  const AuditAside& aside() const { return met_; }

 private:
  struct Packed {
    std::string path;
    PieceReader reader;
    std::size_t next_number = 0;
  };
  struct Opened {
    std::string path;
    Archive archive;
  };

  /// A file that a walk came to, or why it could not go on there.
  struct Found {
    std::string path, trouble;
    bool named = false;  ///< by the user
  };

  std::optional<Found> next_found();
  std::optional<AuditBatch> next_files();
  std::optional<AuditBatch> next_members();
  std::optional<AuditBatch> next_piece();
  /// Opens what holds many dumps; gives the trouble that it meets.
  std::optional<AuditBatch> open(const Found& found);
  bool holds_many(const std::string& path) const;

  std::size_t image_size_;
  std::function<bool()> stopped_;
  std::deque<Tree> trees_;
  AuditAside met_;
  std::optional<Found> aside_;  ///< comes behind the files handed out last, and is no plain file
  std::unique_ptr<Opened> archive_;
  std::unique_ptr<Packed> packed_;
};

}  // namespace rtcmend
