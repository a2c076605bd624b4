#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>

#include "base/image.h"
#include "forms/sizes.h"

namespace rtcmend {

/// Collects bytes that come with their addresses, line by line, into an image. Bytes that no line
/// gives stay unknown.
class Gather {
 public:
  /// where: the file's name for messages.
  explicit Gather(std::string where) : where_(std::move(where)) {}

  /// Refuses, with the line, an address past 7Fh and a byte that an earlier line gives otherwise. A
  /// byte without value counts for the size only.
  void put(std::uint64_t address, DumpByte value, std::size_t line);

  /// The smallest chip that holds every address given. Refused when no byte was given at all.
  Image image() const;

 private:
  struct Source {
    DumpByte value;
    std::size_t line = 0;  // 0: not given
  };

  std::string where_;
  std::array<Source, Image::large_size> bytes_{};
};

}  // namespace rtcmend
