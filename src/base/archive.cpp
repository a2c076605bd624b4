#include "base/archive.h"

#include <array>
#include <fmt/format.h>
#include <string_view>

#include "base/error.h"
#include "base/files.h"
#include "base/text.h"

#ifdef RTCMEND_ARCHIVES
#include <algorithm>
#include <archive.h>
#include <archive_entry.h>
#include <clocale>
#endif

namespace rtcmend {

bool is_archive_name(const std::string& name) {
  constexpr std::array<std::string_view, 10> endings = {".tar",  ".tar.gz", ".tgz", ".tar.bz2",
                                                        ".tbz2", ".tar.xz", ".txz", ".tar.zst",
                                                        ".tzst", ".zip"};
  const std::string small = lower(name);
  for (const std::string_view ending : endings)
    if (small.ends_with(ending)) return true;
  return false;
}

#ifdef RTCMEND_ARCHIVES

namespace {

constexpr std::size_t piece_size = 65536;

using Locale = std::unique_ptr<std::remove_pointer_t<locale_t>, void (*)(locale_t)>;

/// While it lives, names are UTF-8 to libarchive, which gives up those that the locale has no
/// letters for: zip archives say themselves that theirs are UTF-8.
class Utf8Names {
 public:
  explicit Utf8Names(const Locale& utf8) : before_(::uselocale(utf8.get())) {}
  Utf8Names(const Utf8Names&) = delete;
  Utf8Names& operator=(const Utf8Names&) = delete;
  ~Utf8Names() { ::uselocale(before_); }

 private:
  locale_t before_;
};

}  // namespace

struct Archive::State {
  State(std::string name, const ArchiveLimits& allowed, std::function<bool()> told_to_stop)
      : path(std::move(name)),
        limits(allowed),
        stopped(std::move(told_to_stop)),
        reader(::archive_read_new(), ::archive_read_free) {}

  [[noreturn]] void fail() const {
    const char* why = ::archive_error_string(reader.get());
    refuse(path,
           fmt::format("the archive cannot be read on: {}",
                       why != nullptr ? printable(why) : "it is damaged"),
           "unpack it with a program of its own kind, and audit the folder");
  }

  /// Members that are passed over are unpacked as well, so this looks at all that came out so far.
  void check_size() const {
    const std::int64_t out = ::archive_filter_bytes(reader.get(), 0);
    const std::int64_t in = ::archive_filter_bytes(reader.get(), -1);
    const std::int64_t most = std::max(out, unpacked);
    if (most > limits.bytes && most / limits.times_its_size > in)
      refuse(path,
             fmt::format("it unpacks to more than {} times its own size, so it is not read on",
                         limits.times_its_size),
             "unpack it with care, and audit the folder");
  }

  void count_member() {
    if (++members > limits.members)
      refuse(path, fmt::format("it has more than {} members, so it is not read on", limits.members),
             "unpack it with care, and audit the folder");
  }

  std::string path;
  ArchiveLimits limits;
  std::function<bool()> stopped;
  std::unique_ptr<archive, int (*)(archive*)> reader;
  Locale utf8{::newlocale(LC_CTYPE_MASK, "C.UTF-8", nullptr),
              ::freelocale};  ///< where there is one
  std::int64_t unpacked = 0;  ///< bytes of members so far
  std::int64_t members = 0;
};

Archive::Archive(const std::string& path, const ArchiveLimits& limits,
                 std::function<bool()> stopped)
    : state_(std::make_unique<State>(path, limits, std::move(stopped))) {
  archive* reader = state_->reader.get();
  if (reader == nullptr) refuse(path, "there is no memory to read it");
  ::archive_read_support_format_tar(reader);
  ::archive_read_support_format_zip(reader);
  ::archive_read_support_filter_gzip(reader);
  ::archive_read_support_filter_bzip2(reader);
  ::archive_read_support_filter_xz(reader);
  ::archive_read_support_filter_zstd(reader);
  if (::archive_read_open_filename(reader, path.c_str(), piece_size) != ARCHIVE_OK) state_->fail();
}

Archive::~Archive() = default;

namespace {

// As long as a path can be on most systems; an archive's format sets no limit.
constexpr std::size_t longest_name = 4096;

std::string name_of(archive_entry* entry) {
  const char* name = ::archive_entry_pathname(entry);
  if (name == nullptr) return "(a name that cannot be read)";
  const std::string whole(name);
  return whole.size() <= longest_name ? whole : whole.substr(0, longest_name) + " ...";
}

}  // namespace

std::optional<Member> Archive::next() {
  State& state = *state_;
  archive* reader = state.reader.get();
  const Utf8Names names(state.utf8);
  for (;;) {
    if (state.stopped && state.stopped()) return std::nullopt;
    archive_entry* entry = nullptr;
    const int found = ::archive_read_next_header(reader, &entry);
    if (found == ARCHIVE_EOF) return std::nullopt;
    if (found != ARCHIVE_OK && found != ARCHIVE_WARN) state.fail();
    // Members without data unpack to something, too: to their headers.
    state.count_member();
    state.check_size();
    // Links have no type, but for hard links with data, as the pax format allows them.
    const bool wanted =
        ::archive_entry_filetype(entry) == AE_IFREG && ::archive_entry_hardlink(entry) == nullptr;
    Member member{name_of(entry), {}, {}};
    std::array<char, piece_size> piece;
    for (;;) {
      const la_ssize_t count = ::archive_read_data(reader, piece.data(), piece.size());
      if (count == 0) break;
      if (count == ARCHIVE_FATAL) state.fail();
      if (count < 0) {
        const char* why = ::archive_error_string(reader);
        member.trouble = why != nullptr ? why : "it is damaged";
        break;
      }
      if (state.stopped && state.stopped()) return std::nullopt;
      state.unpacked += count;
      state.check_size();
      if (!wanted || !member.trouble.empty()) continue;
      member.content.append(piece.data(), static_cast<std::size_t>(count));
      if (member.content.size() > largest_input)
        member.trouble = fmt::format("it is larger than {} bytes", largest_input);
    }
    if (!member.trouble.empty()) member.content = {};
    if (wanted) return member;
  }
}

#else

struct Archive::State {};

Archive::Archive(const std::string& path, const ArchiveLimits&, std::function<bool()>) {
  refuse(path, "this build of rtcmend reads no archives", "unpack it, and audit the folder");
}

Archive::~Archive() = default;

std::optional<Member> Archive::next() {
  return std::nullopt;
}

#endif

}  // namespace rtcmend
