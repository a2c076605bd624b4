#include "audit/not_a_dump.h"

#include <algorithm>
#include <array>
#include <string>

#include "base/text.h"

namespace rtcmend {

namespace {

// From memory; no published source has them all.
constexpr std::array<std::string_view, 11> leftover_files = {
    ".ds_store", "thumbs.db",    "ehthumbs.db", "desktop.ini",       ".directory", ".localized",
    "icon\r",    "descript.ion", "file_id.diz", "pax_global_header", ".apdisk"};
constexpr std::array<std::string_view, 6> leftover_folders = {
    "__macosx", "@eadir", ".trashes", ".spotlight-v100", ".fseventsd", ".appledouble"};

template <std::size_t N>
bool is_among(std::string_view word, const std::array<std::string_view, N>& words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

bool is_leftover_file(std::string_view name) {
  return name.starts_with("._") || is_among(name, leftover_files);
}

struct Signature {
  std::string_view kind;
  std::size_t at;
  std::string_view bytes;
};

using namespace std::string_view_literals;

/// How archives and packed files begin: the pages of the formats' makers, and file(1)'s
/// descriptions.
constexpr std::array signatures = {
    Signature{"zip", 0, "PK\x03\x04"sv},
    Signature{"zip", 0, "PK\x05\x06"sv},
    Signature{"7z", 0, "7z\xBC\xAF\x27\x1C"sv},
    Signature{"rar", 0, "Rar!\x1A\x07"sv},
    Signature{"gzip", 0, "\x1F\x8B\x08"sv},
    Signature{"bzip2", 0, "BZh"sv},
    Signature{"xz", 0,
              "\xFD"
              "7zXZ\0"sv},
    Signature{"zstandard", 0, "\x28\xB5\x2F\xFD"sv},
    Signature{"compress", 0, "\x1F\x9D"sv},
    Signature{"lha", 2, "-lh"sv},
    Signature{"lha", 2, "-lz"sv},
    Signature{"arj", 0, "\x60\xEA"sv},
    Signature{"zoo", 0, "ZOO "sv},
    Signature{"cabinet", 0, "MSCF"sv},
    Signature{"tar", 257, "ustar"sv},
    Signature{"cpio", 0, "07070"sv},
    Signature{"ar", 0, "!<arch>\n"sv},
};

struct Ending {
  std::string_view kind, ending;
};

constexpr std::array endings = {
    Ending{"zip", ".zip"},        Ending{"tar", ".tar"},        Ending{"tar", ".tgz"},
    Ending{"tar", ".tbz2"},       Ending{"tar", ".txz"},        Ending{"tar", ".tzst"},
    Ending{"gzip", ".gz"},        Ending{"bzip2", ".bz2"},      Ending{"xz", ".xz"},
    Ending{"zstandard", ".zst"},  Ending{"compress", ".z"},     Ending{"7z", ".7z"},
    Ending{"rar", ".rar"},        Ending{"lha", ".lha"},        Ending{"lha", ".lzh"},
    Ending{"arj", ".arj"},        Ending{"arc", ".arc"},        Ending{"zoo", ".zoo"},
    Ending{"cabinet", ".cab"},    Ending{"stuffit", ".sit"},    Ending{"stuffit", ".sitx"},
    Ending{"ace", ".ace"},        Ending{"cpio", ".cpio"},      Ending{"lzma", ".lzma"},
    Ending{"disk image", ".iso"}, Ending{"disk image", ".dmg"},
};

std::string_view kind_by_beginning(std::string_view content) {
  for (const Signature& signature : signatures)
    if (content.size() > signature.at && content.substr(signature.at).starts_with(signature.bytes))
      return signature.kind;
  return {};
}

std::string_view kind_by_ending(std::string_view name) {
  const std::string word = lower(name);
  for (const Ending& ending : endings)
    if (word.ends_with(ending.ending)) return ending.kind;
  return {};
}

}  // namespace

bool is_leftover(std::string_view path) {
  while (!path.empty()) {
    const std::size_t end = std::min(path.find_first_of("/\\"), path.size());
    const std::string_view part = path.substr(0, end);
    path.remove_prefix(std::min(path.size(), end + 1));
    // No name below is as short or as long; most names end here.
    if (part.size() < 3) continue;
    const std::string word = lower(part);
    if (path.empty() ? is_leftover_file(word) : is_among(std::string_view(word), leftover_folders))
      return true;
  }
  return false;
}

std::string_view kind_of_archive(std::string_view name, std::string_view content) {
  const std::string_view kind = kind_by_beginning(content);
  return kind.empty() ? kind_by_ending(name) : kind;
}

bool is_surely_archive(std::string_view name, std::string_view content) {
  return !kind_by_beginning(content).empty() && !kind_by_ending(name).empty();
}

bool is_opened(std::string_view kind_of_archive) {
  return kind_of_archive == "zip" || kind_of_archive == "tar";
}

}  // namespace rtcmend
