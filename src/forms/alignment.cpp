#include "forms/alignment.h"

#include <map>

namespace rtcmend {

namespace {

constexpr std::size_t fewest_rows = 3;

/// The columns behind the numbers that stand in front on a row.
std::vector<std::size_t> ends_of(const ListingRow& row) {
  std::vector<std::size_t> ends;
  for (const RowWord& word : row.words) {
    if (!word.number) break;
    ends.push_back(word.end);
  }
  return ends;
}

}  // namespace

Alignment alignment_of(const Listing& listing) {
  std::map<std::vector<std::size_t>, std::size_t> counts;
  std::size_t rows = 0;
  for (const ListingRow& row : listing.rows) {
    if (row.words.empty()) continue;
    ++rows;
    ++counts[ends_of(row)];
  }
  const std::vector<std::size_t>* common = nullptr;
  std::size_t most = 0;
  for (const auto& [ends, count] : counts)
    if (count > most) {
      most = count;
      common = &ends;
    }
  Alignment alignment;
  // The last row may be short.
  if (rows < fewest_rows || most < 2 || most * 3 < (rows - 1) * 2) return alignment;
  for (const ListingRow& row : listing.rows) {
    const std::vector<std::size_t> ends = ends_of(row);
    for (std::size_t i = 0; i < ends.size(); ++i) {
      if (i < common->size() && ends[i] == (*common)[i]) continue;
      alignment.odd.push_back(row.line->number);
      break;
    }
  }
  alignment.aligned = alignment.odd.empty();
  return alignment;
}

}  // namespace rtcmend
