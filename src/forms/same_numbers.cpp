#include "forms/same_numbers.h"

#include <algorithm>

#include "base/error.h"
#include "forms/source_lines.h"

namespace rtcmend {

namespace {

constexpr int radices[] = {16, 10, 8, 2};

std::optional<std::uint64_t> value_of(const ListingRow& row, std::size_t column, int radix) {
  const Number& number = *row.words[column].number;
  if (number.mark == Mark::hex) radix = 16;
  if (number.mark == Mark::binary) radix = 2;
  const auto value = value_in(number.digits, radix);
  return value && *value <= 0xFF ? value : std::nullopt;
}

/// True when rows hold two numbers or more, and no more than there are notations.
bool may_be_same(const ListingRow& row) {
  const std::size_t most = std::size(radices);
  return row.words.size() >= 2 && row.words.size() <= most && row.words[0].number &&
         row.words[1].number;
}

/// True when the addresses step by one: each line is about one byte.
bool one_a_line(const Listing& listing) {
  for (const int radix : {16, 10}) {
    std::size_t steps = 0;
    for (std::size_t i = 1; i < listing.rows.size(); ++i) {
      const auto& before = listing.rows[i - 1].address;
      const auto& address = listing.rows[i].address;
      if (!before || !address) return false;
      const auto from = value_in(before->digits, radix);
      if (from && value_in(address->digits, radix) == *from + 1) ++steps;
    }
    if (steps * 10 >= (listing.rows.size() - 1) * 8) return true;
  }
  return false;
}

/// The rows that do not say the same number in these two radices.
std::vector<const ListingRow*> disagreeing(const Listing& listing, int first, int second) {
  std::vector<const ListingRow*> odd;
  for (const ListingRow& row : listing.rows) {
    const auto value = value_of(row, 0, first);
    if (!value || value != value_of(row, 1, second)) odd.push_back(&row);
  }
  return odd;
}

}  // namespace

std::optional<int> keep_first_of_same(Listing& listing, const std::string& where) {
  constexpr std::size_t fewest_rows = 8;
  if (listing.place == PlaceInText::none || listing.rows.size() < fewest_rows) return std::nullopt;
  if (!std::all_of(listing.rows.begin(), listing.rows.end(), may_be_same) || !one_a_line(listing))
    return std::nullopt;
  for (const int first : radices)
    for (const int second : radices) {
      if (first == second) continue;
      const std::vector<const ListingRow*> odd = disagreeing(listing, first, second);
      if (odd.size() * 10 > listing.rows.size()) continue;
      if (!odd.empty())
        refuse(place(where, odd.front()->line->number),
               "the two numbers of this line do not say the same byte, as those of the others do",
               "compare this line with its source",
               marked_line(*odd.front()->line, odd.front()->words[1].begin));
      for (ListingRow& row : listing.rows) {
        row.words.resize(1);
        row.tail = {};
      }
      return first;
    }
  return std::nullopt;
}

}  // namespace rtcmend
