#include "forms/placed_rows.h"

#include <algorithm>
#include <fmt/format.h>
#include <map>

#include "base/error.h"
#include "forms/row_bytes.h"
#include "forms/source_lines.h"

namespace rtcmend {

namespace {

std::uint64_t address_of(const ListingRow& row, int radix, const std::string& where) {
  // 48 bits are the addresses of today's processors.
  constexpr std::uint64_t highest = 0xFFFFFFFFFFFF;
  const auto address = value_in(row.address->digits, row.address->mark == Mark::hex ? 16 : radix);
  if (!address || *address > highest)
    refuse(place(where, row.line->number),
           fmt::format("{} is no address of a chip", in_quotes(row.address->digits)));
  return *address;
}

void check_segment(const PlacedRow& before, const ListingRow& row, const std::string& where) {
  if (!before.first().address || before.first().address->segment == row.address->segment) return;
  refuse(place(where, row.line->number), "the segment is another one than on the lines before",
         "give one block of memory with one segment");
}

}  // namespace

PlacedRows placed_rows(const Listing& listing, int radix, const std::string& where) {
  PlacedRows placed;
  for (const ListingRow& row : listing.rows) {
    if (row.star) {
      placed.rows.push_back({0, {&row}, true});
    } else if (row.address) {
      if (!placed.rows.empty()) check_segment(placed.rows.back(), row, where);
      placed.rows.push_back({address_of(row, radix, where), {&row}, false});
      placed.segmented = placed.segmented || !row.address->segment.empty();
    } else if (placed.rows.empty()) {
      placed.loose.push_back(&row);
    } else {
      // It goes on where the one before ended, or is its text column, wrapped; which of them, its
      // bytes decide.
      placed.rows.back().parts.push_back(&row);
    }
  }
  constexpr std::size_t digits_of_files = 6;
  if (!placed.rows.empty() && placed.rows.front().first().address)
    placed.from_file = placed.rows.front().first().address->digits.size() >= digits_of_files;
  return placed;
}

std::uint64_t common_step(const std::vector<PlacedRow>& rows) {
  std::map<std::uint64_t, std::size_t> counts;
  for (std::size_t i = 1; i < rows.size(); ++i) {
    if (rows[i].star || rows[i - 1].star || rows[i].address <= rows[i - 1].address) continue;
    if (rows[i].address - rows[i - 1].address <= Image::large_size)
      ++counts[rows[i].address - rows[i - 1].address];
  }
  std::uint64_t common = 0;
  std::size_t most = 0;
  for (const auto& [step, count] : counts)
    if (count > most) {
      most = count;
      common = step;
    }
  return most * 2 + 1 < rows.size() ? 0 : common;
}

std::size_t filled_step(const std::vector<PlacedRow>& rows, std::uint64_t step,
                        const Notation& notation, std::size_t count) {
  if (step == 0) return 0;
  std::size_t filling = 0;
  for (const PlacedRow& row : rows) {
    if (row.star || row.first().words.empty()) continue;
    std::vector<DumpByte> bytes;
    bool extra = false;
    for (const ListingRow* part : row.parts)
      extra = take_bytes(*part, notation, step, bytes).extra || extra;
    if (bytes.size() == step && !extra) ++filling;
  }
  // Half of them are enough where they are several: no row has just so many bytes by luck.
  return filling * 2 > count || (filling > 1 && filling * 2 == count)
             ? static_cast<std::size_t>(step)
             : 0;
}

std::size_t counted_rows(const std::vector<PlacedRow>& rows, const Notation& notation) {
  constexpr std::size_t fewest_rows = 3;
  constexpr std::size_t fewest_bytes = 4;
  constexpr std::size_t most_bytes = Image::large_size + 1;
  if (rows.size() < fewest_rows || rows.front().address > 1) return 0;
  std::size_t size = 0;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (rows[i].star || rows[i].parts.size() > 1) return 0;
    if (i > 0 && rows[i].address != rows[i - 1].address + 1) return 0;
    std::vector<DumpByte> bytes;
    take_bytes(rows[i].first(), notation, most_bytes, bytes);
    if (i > 0 && bytes.size() != size && i + 1 < rows.size()) return 0;
    if (i == 0) size = bytes.size();
  }
  return size >= fewest_bytes ? size : 0;
}

void number_by_bytes(std::vector<PlacedRow>& rows, std::size_t row_size) {
  const std::uint64_t first = rows.front().address;
  for (PlacedRow& row : rows) row.address = (row.address - first) * row_size;
}

const PlacedRow* odd_address(const std::vector<PlacedRow>& rows) {
  std::map<std::size_t, std::size_t> counts;
  bool padded = false;
  for (const PlacedRow& row : rows) {
    if (row.star || !row.first().address) continue;
    const std::string_view digits = row.first().address->digits;
    ++counts[digits.size()];
    padded = padded || (digits.size() > 1 && digits.front() == '0');
  }
  if (!padded || counts.size() < 2) return nullptr;
  const auto common =
      std::max_element(counts.begin(), counts.end(),
                       [](const auto& a, const auto& b) { return a.second < b.second; });
  for (const PlacedRow& row : rows) {
    if (row.star || !row.first().address) continue;
    const std::string_view digits = row.first().address->digits;
    if (digits.size() == common->first) continue;
    // More digits than the others, and needed, are those of a higher address.
    if (digits.size() < common->first || digits.front() == '0') return &row;
  }
  return nullptr;
}

std::size_t address_column(const ListingRow& row) {
  return static_cast<std::size_t>(row.address->digits.data() - row.line->text.data());
}

}  // namespace rtcmend
