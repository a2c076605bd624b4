#include "forms/row_addresses.h"

#include <algorithm>
#include <cstdint>
#include <map>

namespace rtcmend {

namespace {

/// The commonest step from one bare address to the next, and how many pairs have it.
struct Steps {
  std::uint64_t size = 0;
  std::size_t count = 0;
  std::size_t pairs = 0;
};

Steps bare_steps(const std::vector<ListingLine>& lines, int radix) {
  std::map<std::uint64_t, std::size_t> counts;
  Steps steps;
  std::optional<std::uint64_t> before;
  for (const ListingLine& line : lines) {
    const auto address = bare_address(line.text);
    if (!address) continue;
    const auto value = value_in(address->digits, address->mark == Mark::hex ? 16 : radix);
    if (!value) return {};
    if (before) {
      ++steps.pairs;
      constexpr std::uint64_t longest_row = 128;
      if (*value > *before && *value - *before <= longest_row) ++counts[*value - *before];
    }
    before = value;
  }
  for (const auto& [size, count] : counts)
    if (count > steps.count) steps = {size, count, steps.pairs};
  return steps;
}

/// True when the first words of the lines climb as addresses do: by steps alike. Wants four lines,
/// so that it cannot be luck.
bool first_words_climb(const std::vector<ListingLine>& lines) {
  for (const int radix : {16, 10, 8}) {
    const Steps steps = bare_steps(lines, radix);
    if (steps.pairs >= 3 && steps.count * 10 >= steps.pairs * 6 && steps.count >= 3) return true;
  }
  return false;
}

/// True when the first word is longer than the others, as the addresses of dump programs are: four
/// digits and then two, seven and then four.
bool is_longer_first(const ListingRow& row) {
  if (row.words.size() < 2 || !row.words[0].number || !row.words[1].number) return false;
  const std::size_t width = row.words[0].number->digits.size();
  const std::size_t next = row.words[1].number->digits.size();
  const bool hex = all_hex(row.words[0].number->digits);
  return hex && ((width >= 4 && next <= 3 && next < width) || (width >= 6 && next != width));
}

}  // namespace

std::optional<std::string_view> common_label(const std::vector<ListingLine>& lines) {
  std::map<std::string_view, std::size_t> labels;
  std::size_t other = 0;
  for (const ListingLine& line : lines) {
    const auto address = marked_address(line.text);
    const ListingRow row = address ? row_behind(line, *address) : row_without_address(line);
    if (address && (row.words.empty() || row.words.front().number))
      ++labels[address->label];
    else if (!address && is_numeric(row))
      ++other;
  }
  const auto most =
      std::max_element(labels.begin(), labels.end(),
                       [](const auto& a, const auto& b) { return a.second < b.second; });
  // A wrapped line has a part with an address and one without.
  if (most == labels.end() || most->second * 2 < other) return std::nullopt;
  return most->first;
}

bool has_bare_addresses(const std::vector<ListingLine>& lines) {
  std::size_t longer = 0;
  std::size_t rows = 0;
  for (const ListingLine& line : lines) {
    const ListingRow row = row_without_address(line);
    if (!is_numeric(row) || row.words.size() < 2) continue;
    ++rows;
    if (is_longer_first(row)) ++longer;
  }
  if (rows > 0 && longer * 2 >= rows) return true;
  std::vector<ListingLine> numeric;
  for (const ListingLine& line : lines)
    if (const ListingRow row = row_without_address(line); is_numeric(row) && row.words.size() > 1)
      numeric.push_back(line);
  return first_words_climb(numeric);
}

std::size_t common_width(const std::vector<ListingLine>& lines) {
  std::map<std::size_t, std::size_t> counts;
  for (const ListingLine& line : lines)
    if (const auto address = bare_address(line.text)) ++counts[address->digits.size()];
  std::size_t width = 0;
  std::size_t most = 0;
  for (const auto& [digits, count] : counts)
    if (count >= most) {  // bytes of wrapped lines are shorter, and may be as many
      most = count;
      width = digits;
    }
  return width;
}

}  // namespace rtcmend
