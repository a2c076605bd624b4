#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/error.h"
#include "forms/listing.h"
#include "forms/notation.h"

namespace rtcmend {

/// A byte and where it came from.
struct ListedByte {
  std::uint64_t address = 0;  ///< as written; or counted from 0 without addresses
  DumpByte value;
  std::size_t line = 0;
  char letter = 0;  ///< what the text column shows for it; 0 = nothing
};

/// One way to read a listing, carried through to the end, with all that speaks for and against it.
struct Attempt {
  Notation notation;
  std::optional<int> address_radix{};  ///< nothing without addresses

  std::vector<ListedByte> cells{};
  std::optional<std::uint64_t> end{};  ///< the address alone on the last line
  std::size_t row_size = 0;            ///< bytes of most rows; 0 when they differ
  std::size_t rows = 0;
  bool segmented = false;  ///< addresses are those of a buffer in memory
  bool from_file = false;  ///< addresses of six digits or more, as those of files are

  bool has_text = false;  ///< a text column had its say
  double custom = 0;      ///< the part of the bits that only says how such listings usually are
  double bits = 0;        ///< evidence; only differences between attempts mean something
  std::vector<std::string> reasons{};  ///< what decided, for "read as ...: REASON"
  Remarks remarks{};
  std::optional<Error> error{};
  std::optional<Image> image{};
};

/// Reads all rows in one way. What is wrong with them goes into `error`.
Attempt attempt_reading(const Listing& listing, const NotationCandidate& candidate,
                        std::optional<int> address_radix, const std::string& where);

}  // namespace rtcmend
