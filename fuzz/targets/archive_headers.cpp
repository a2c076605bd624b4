// An archive of headers: four bytes of the input make one header of a tar (its kind, the size that
// it claims, how often it comes), right to its checksum, with no data behind it. Whatever is
// claimed, the archive ends within its bounds.
#include <array>
#include <fmt/format.h>
#include <numeric>
#include <string>

#include "base/archive.h"
#include "nameless_file.h"
#include "target.h"

namespace rtcmend::fuzz {

namespace {

constexpr std::size_t block = 512;

/// POSIX.1-1988 ustar: name, mode, owner, group, size, time, checksum, kind, link, magic.
std::string header(char kind, unsigned size) {
  std::string bytes(block, '\0');
  const auto put = [&](std::size_t at, const std::string& text) {
    bytes.replace(at, text.size(), text);
  };
  put(0, "n");
  put(100, "0000644");
  put(108, "0000000");
  put(116, "0000000");
  put(124, fmt::format("{:011o}", size));
  put(136, "00000000000");
  put(148, "        ");
  bytes[156] = kind;
  put(157, "n");
  put(257, std::string("ustar\0"
                       "00",
                       8));
  const auto sum = std::accumulate(bytes.begin(), bytes.end(), 0U, [](unsigned total, char c) {
    return total + static_cast<unsigned char>(c);
  });
  put(148, fmt::format("{:06o}", sum) + std::string("\0 ", 2));
  return bytes;
}

std::string tar_of(std::string_view recipe) {
  constexpr std::size_t most_headers = 4096;
  constexpr std::string_view kinds = "0123456789xgLKNVAS";
  std::string tar;
  for (; recipe.size() >= 4 && tar.size() < most_headers * block; recipe.remove_prefix(4)) {
    const auto at = [&](std::size_t i) { return static_cast<unsigned char>(recipe[i]); };
    const std::string one = header(kinds[at(0) % kinds.size()], at(1) << (at(2) % 24));
    for (int i = 0; i <= at(3); ++i) tar += one;
  }
  return tar;
}

}  // namespace

void attempt(std::string_view input) {
  constexpr ArchiveLimits limits{.bytes = 1 << 20, .times_its_size = 200, .members = 1000};
  static NamelessFile file;
  file.fill(tar_of(input));
  std::int64_t asked = 0;
  Archive archive(file.path(), limits, [&] {
    ++asked;
    return false;
  });
  std::int64_t members = 0;
  while (archive.next()) must(++members <= limits.members, "members are bounded");
  must(asked > 0, "it can be stopped");
}

}  // namespace rtcmend::fuzz
