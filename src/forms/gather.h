#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <string>

#include "base/ranges.h"
#include "forms/chip_in_file.h"

namespace rtcmend {

/// Collects bytes that come with their addresses, line by line. Bytes that no line gives stay
/// unknown.
class Gather {
 public:
  /// where: the file's name for messages.
  explicit Gather(std::string where) : where_(std::move(where)) {}

  /// Refuses, with the line, a byte that an earlier line gives otherwise. A byte without value says
  /// that it is unknown, and counts for the size.
  void put(std::uint64_t address, DumpByte value, std::size_t line);

  /// The smallest chip that holds every address given. Refused when no byte was given at all, and,
  /// with the line, an address past 7Fh.
  Image image() const;

  /// The chip among the bytes, which may be more than its own, as chip_in() finds it; else as
  /// image().
  Found chip(const ReadingOptions& options) const;

  /// Addresses that count from `base`, for a chip of `size`; what no line gives is warned of.
  Found based(std::uint64_t base, std::size_t size) const;

  bool empty() const { return bytes_.empty(); }
  std::uint64_t low() const { return bytes_.begin()->first; }
  std::uint64_t end() const { return bytes_.rbegin()->first + 1; }
  std::uint64_t span() const { return end() - low(); }
  bool has_holes() const { return bytes_.size() != span(); }

  /// All from an address on, unknown where no line gives anything.
  std::vector<DumpByte> row(std::uint64_t from, std::uint64_t count) const;
  /// What no line gives of so many bytes from an address on, and what stands twice. `first`: the
  /// chip's address of the first one.
  Remarks remarks(std::uint64_t from, std::size_t size, std::size_t first = 0) const;

  /// Names the first byte that is past a chip which begins at `base`.
  [[noreturn]] void refuse_past(std::uint64_t base) const;
  [[noreturn]] void refuse_empty() const;

 private:
  struct Source {
    DumpByte value;
    std::size_t line = 0;
  };

  std::string where_;
  std::map<std::uint64_t, Source> bytes_;
  std::size_t twice_ = 0;
};

}  // namespace rtcmend
