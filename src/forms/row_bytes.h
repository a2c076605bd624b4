#pragma once

#include <optional>
#include <string>
#include <vector>

#include "forms/ascii_column.h"
#include "forms/listing.h"
#include "forms/notation.h"

namespace rtcmend {

/// How the words of a row, or of a part of it, turned into bytes.
struct RowReading {
  std::optional<RowWord> bad{};    ///< the first word that is no bytes where bytes were due
  bool extra = false;              ///< more bytes stand there than the row can hold
  std::optional<AsciiFit> text{};  ///< how the text column fits, where there is one
  std::string letters{};           ///< what the column shows for each byte; empty without one
  bool bounded = false;            ///< bars around the text column say that it is one
  std::size_t remark = 0;          ///< column of words behind the bytes; 0: none
};

/// Appends the bytes of a row to those that the lines before gave it, at most until it has `limit`.
RowReading take_bytes(const ListingRow& row, const Notation& notation, std::size_t limit,
                      std::vector<DumpByte>& bytes);

/// What is wrong with a word, in words: "5" has an odd number of hex digits.
std::string problem_with(const RowWord& word, const Notation& notation);

}  // namespace rtcmend
