#include "base/files.h"

#include <array>
#include <cerrno>
#include <csignal>
#include <cstring>
#include <filesystem>
#include <fmt/format.h>
#include <optional>
#include <sys/stat.h>
#include <unistd.h>

#include "base/descriptor.h"
#include "base/error.h"
#include "base/near_miss.h"
#include "base/replace_file.h"
#include "base/system.h"
#include "base/text.h"

namespace rtcmend {

namespace {

std::optional<struct stat> status(const std::string& path) {
  struct stat found {};
  if (::stat(path.c_str(), &found) != 0) return std::nullopt;
  return found;
}

std::string too_large(std::size_t limit) {
  return fmt::format(
      "it is larger than {} bytes, and a clock chip's dump is at most a few thousand", limit);
}

constexpr const char* check_name_remedy =
    "check the name; a dump is one file of 64 or 128 bytes, or text";

[[noreturn]] void refuse_missing(const std::string& path) {
  const std::string reason = std::strerror(errno);
  const auto near = near_file_names(path);
  refuse(path, reason, near.empty() ? "check the name and the folder" : join(near, " or "));
}

int open_input(const std::string& path, std::size_t limit) {
  const auto found = status(path);
  if (!found) refuse_missing(path);
  if (S_ISDIR(found->st_mode)) refuse(path, "it is a folder, not a file", "name a file inside it");
  if (S_ISREG(found->st_mode) && static_cast<std::size_t>(found->st_size) > limit)
    refuse(path, too_large(limit), check_name_remedy);
  const int descriptor = system::open_to_read(path);
  if (descriptor < 0) refuse(path, std::strerror(errno), "check that you may read it");
  return descriptor;
}

/// While it lives, a pipe whose reader has gone is an error of a write, not the program's end.
class BrokenPipesAreErrors {
 public:
  BrokenPipesAreErrors() = default;
#ifdef SIGPIPE
  ~BrokenPipesAreErrors() {
    std::signal(SIGPIPE, before_);
  }

 private:
  void (*before_)(int) = std::signal(SIGPIPE, SIG_IGN);
#endif
};

/// A pipe or a device: what is written there cannot be taken back.
void write_to_device(const std::string& path, std::string_view content) {
  Descriptor device(system::open_to_write(path));
  if (!device.open()) file_system_error(path, "cannot open");
  [[maybe_unused]] const BrokenPipesAreErrors quiet{};
  const bool written = write_all(device.get(), content);
  // Most devices have nothing to flush, and say so.
  const bool flushed = written && (system::flush(device.get()) || errno == EINVAL ||
                                   errno == EROFS || errno == ENOTSUP);
  if (!flushed || !device.close())
    throw Error(Refusal::file_system, path, fmt::format("cannot write: {}", std::strerror(errno)),
                "a part may have arrived; see to the device, then run it again");
}

bool is_link(const std::string& path) {
  std::error_code failure;
  return std::filesystem::is_symlink(path, failure);
}

/// Where a link leads, so that the link stays and the file behind it is replaced.
std::string followed(const std::string& path) {
  if (!is_link(path)) return path;
  std::error_code failure;
  const auto target = std::filesystem::weakly_canonical(path, failure);
  return failure ? path : target.string();
}

/// Whether a link or a pipe lies in a folder that anybody may write in, put there by somebody else:
/// they chose what is written to. The owner of the folder is trusted, as the kernel does it
/// (proc(5), protected_symlinks and protected_fifos).
bool laid_by_a_stranger(const std::string& path) {
#ifndef _WIN32
  struct stat entry {
  }, folder{};
  const std::filesystem::path parent = std::filesystem::path(path).parent_path();
  if (::lstat(path.c_str(), &entry) != 0 ||
      ::stat(parent.empty() ? "." : parent.c_str(), &folder) != 0)
    return false;
  if (!S_ISLNK(entry.st_mode) && !S_ISFIFO(entry.st_mode)) return false;
  return (folder.st_mode & S_IWOTH) != 0 && entry.st_uid != ::geteuid() &&
         entry.st_uid != folder.st_uid;
#else
  static_cast<void>(path);
  return false;
#endif
}

}  // namespace

std::string read_whole(const std::string& path, std::size_t limit) {
  const bool standard = path == "-";
  const std::string where = standard ? "standard input" : path;
  const Descriptor input(standard ? STDIN_FILENO : open_input(path, limit));
  std::string content;
  std::array<char, 65536> piece;
  for (;;) {
    const auto count = ::read(input.get(), piece.data(), piece.size());
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) throw Error(Refusal::file_system, where, std::strerror(errno));
    if (count == 0) break;
    content.append(piece.data(), static_cast<std::size_t>(count));
    if (content.size() > limit) refuse(where, too_large(limit), check_name_remedy);
  }
  if (content.empty())
    refuse(where, "it is empty",
           standard ? "one file alone can come from there; name the others"
                    : "read the chip again; an empty file holds no dump");
  return content;
}

bool is_plain_file(const std::string& path) {
  std::error_code trouble;
  return std::filesystem::is_regular_file(path, trouble);
}

bool exists_already(const std::string& path) {
  return status(path).has_value();
}

std::string read_found(const std::string& path, std::size_t limit) {
  // Should a pipe have taken the file's place, opening and reading it must not wait.
  const Descriptor input(system::open_without_waiting(path));
  if (input.get() < 0) refuse(path, std::strerror(errno), "check that you may read it");
  std::string content;
  std::array<char, 4096> piece;
  for (;;) {
    const auto count = ::read(input.get(), piece.data(), piece.size());
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) refuse(path, std::strerror(errno), "check that you may read it");
    if (count == 0) break;
    content.append(piece.data(), static_cast<std::size_t>(count));
    if (content.size() > limit) refuse(path, too_large(limit), check_name_remedy);
  }
  if (content.empty())
    refuse(path, "it is empty", "read the chip again; an empty file holds no dump");
  return content;
}

PieceReader::PieceReader(const std::string& path)
    : path_(path), descriptor_(system::open_to_read(path)) {
  if (descriptor_ < 0) refuse(path, std::strerror(errno), "check that you may read it");
}

PieceReader::~PieceReader() {
  ::close(descriptor_);
}

std::string PieceReader::next(std::size_t size) {
  std::string piece(size, '\0');
  std::size_t filled = 0;
  while (filled < size) {
    const auto count =
        ::read(descriptor_, piece.data() + filled, static_cast<unsigned>(size - filled));
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) throw Error(Refusal::file_system, path_, std::strerror(errno));
    if (count == 0) break;
    filled += static_cast<std::size_t>(count);
  }
  piece.resize(filled);
  return piece;
}

void check_output(const std::string& path, const WriteRules& rules) {
  if (path == "-") return;
  if (path.empty())
    refuse("-o", "the output has no name", "give a file name, or - for standard output");
  if (laid_by_a_stranger(path))
    refuse(path, "another user has put a link or a pipe there, in a folder that all may write in",
           "choose a folder of your own");
  const auto output = status(path);
  if (!output && is_link(path))
    refuse(path, "it is a link that leads nowhere", "remove the link, or name the file itself");
  if (!output) return;
  if (S_ISDIR(output->st_mode)) refuse(path, "it is a folder", "name a file inside it");
  if (S_ISBLK(output->st_mode) && !rules.replace)
    refuse(path, "it is a disk, and what is on it would be written over",
           Advice{{"Look twice at its name; if it is the one that you mean, replace it",
                   Act{Act::Kind::choose, "force", {}}}});
  if (!S_ISREG(output->st_mode)) return;
  if (rules.inputs.hold(path))
    refuse(path, "it is a file that was read, and an input is never written over",
           "choose another name for -o");
  if (!rules.replace)
    refuse(path, "it exists already",
           Advice{{"Choose another name, or replace it", Act{Act::Kind::choose, "force", {}}}});
}

bool same_output(const std::string& one, const std::string& other) {
  const auto settled = [](const std::string& path) {
    std::error_code failure;
    return std::filesystem::weakly_canonical(std::filesystem::absolute(path, failure), failure);
  };
  return settled(one) == settled(other);
}

void write_whole(const std::string& path, std::string_view content, const WriteRules& rules) {
  check_output(path, rules);
  if (path == "-") {
    if (write_all(STDOUT_FILENO, content)) return;
    file_system_error("standard output", "cannot write");
  }
  const auto found = status(path);
  if (found && !S_ISREG(found->st_mode)) return write_to_device(path, content);
  put_file(followed(path), content, found ? Existing::replace : Existing::refuse);
}

}  // namespace rtcmend
