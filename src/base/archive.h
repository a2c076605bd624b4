#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>

namespace rtcmend {

/// Whether a name ends like a tar or zip archive: .tar, .tar.gz, .tgz, .tar.bz2, .tar.xz, .tar.zst,
/// .zip.
bool is_archive_name(const std::string& name);

/// A file in an archive.
struct Member {
  std::string name;     ///< as the archive has it, cut at 4096 bytes; only ever shown
  std::string content;  ///< empty when there is trouble
  std::string trouble;  ///< why it could not be read; empty = it could
};

/// How much an archive may unpack to. One that passes both limits of size is not read on, nor one
/// that has more members. A tar of tiny
/// dumps is mostly padding, yet packs to a hundredth at best.
struct ArchiveLimits {
  std::int64_t bytes = std::int64_t{1} << 30;
  std::int64_t times_its_size = 200;
  std::int64_t members = 1'000'000;  ///< folders, links and empty ones among them
};

/// Reads a tar or zip archive from its beginning to its end. Members are read into memory one at a
/// time and never written anywhere, so names that lead upwards, absolute names and links can do no
/// harm; links, folders and devices are passed over. A member over `largest_input` is trouble. An
/// archive that passes its limits ends there, in an Error.
class Archive {
 public:
  /// Throws Error (input) when it cannot be opened, or is none, or this build reads no archives.
  /// `stopped` is asked between pieces: once it says so, the archive is at its end.
  explicit Archive(const std::string& path, const ArchiveLimits& limits = {},
                   std::function<bool()> stopped = {});
  ~Archive();
  Archive(const Archive&) = delete;
  Archive& operator=(const Archive&) = delete;

  /// The next file, or nothing at the end. Throws Error when the archive is broken from here on;
  /// nothing more can be read from it then.
  std::optional<Member> next();

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace rtcmend
