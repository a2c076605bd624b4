#include "forms/listing.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "forms/row_addresses.h"
#include "forms/source_lines.h"

namespace rtcmend {

namespace {

/// A debugger that starts within a row leaves the bytes in front of the first one blank: two blanks
/// behind the address, then three for each byte.
void count_skipped(ListingRow& row, const std::string& where) {
  constexpr std::size_t margin = 2;
  constexpr std::size_t columns_a_byte = 3;
  if (!row.address || row.address->segment.empty() || row.words.empty()) return;
  const std::size_t gap = row.words.front().begin - row.address->rest;
  if (gap < margin + columns_a_byte) return;
  if ((gap - margin) % columns_a_byte != 0)
    refuse(place(where, row.line->number),
           "the blanks in front of the first byte do not say which byte it is",
           "give each line the address of its first byte, with two blanks behind it");
  row.skipped = (gap - margin) / columns_a_byte;
}

PlaceInText place_of(const std::vector<ListingLine>& lines, const ReadingOptions& options,
                     std::optional<std::string_view> label) {
  if (options.addresses == AddressKind::none) return PlaceInText::none;
  if (label) return PlaceInText::marked;
  if (has_bare_addresses(lines) || options.addresses) return PlaceInText::bare;
  return PlaceInText::none;
}

std::optional<LineAddress> address_of(const ListingLine& line, PlaceInText place,
                                      std::optional<std::string_view> label, std::size_t width) {
  if (place == PlaceInText::marked) {
    const auto address = marked_address(line.text);
    return address && address->label == *label ? address : std::nullopt;
  }
  if (place == PlaceInText::none) return std::nullopt;
  const auto address = bare_address(line.text);
  // Addresses of many digits are all alike; a word that is shorter is a byte of a wrapped line.
  if (!address || (width >= 4 && address->digits.size() + 1 < width)) return std::nullopt;
  return address;
}

[[noreturn]] void refuse_nearly(const ListingRow& row, const std::string& where) {
  const auto wrong = std::find_if(row.words.begin(), row.words.end(),
                                  [](const RowWord& word) { return !word.number; });
  const RowWord& word = wrong == row.words.end() ? row.words.front() : *wrong;
  refuse(place(where, row.line->number), fmt::format("{} is not hex", in_quotes(word.text)),
         "bytes are two hex digits each, ?? for an unknown one, with blanks between them",
         marked_line(*row.line, word.begin));
}

/// The rows of a text, each line judged alone.
struct Sorted {
  std::vector<ListingRow> rows;
  std::vector<ListingRow> nearly;
  std::vector<std::size_t> passed;
  std::vector<std::size_t> doubtful;
};

/// A sentence has a number or two; more may be bytes.
bool has_many_numbers(const ListingRow& row) {
  constexpr std::ptrdiff_t many = 4;
  return std::count_if(row.words.begin(), row.words.end(), [](const RowWord& word) {
           return word.number && has_digit(word.text);
         }) >= many;
}

/// "--" alone is an unknown byte among bytes that stand one a line, else what a mail puts in front
/// of a signature.
bool is_signature_mark(const ListingRow& row, const std::vector<ListingRow>& before) {
  if (trim(row.line->text) != "--") return false;
  return before.empty() || before.back().words.size() != 1 || before.back().line + 1 != row.line ||
         before.back().line->number + 1 != row.line->number;
}

Sorted sort_lines(const std::vector<ListingLine>& lines, PlaceInText place,
                  std::optional<std::string_view> label) {
  Sorted sorted;
  const std::size_t width = place == PlaceInText::bare ? common_width(lines) : 0;
  for (const ListingLine& line : lines) {
    const auto address = address_of(line, place, label, width);
    ListingRow row = address ? row_behind(line, *address) : row_without_address(line);
    const bool addressed =
        address && (row.words.empty() || row.words.front().number || place == PlaceInText::marked);
    const bool heading = sorted.rows.empty() && place != PlaceInText::none &&
                         is_column_heading(row_without_address(line));
    const bool mark = !address && is_signature_mark(row, sorted.rows);
    if (!mark && !heading && (row.star || addressed || (!address && is_numeric(row))))
      sorted.rows.push_back(std::move(row));
    else if (!mark && !heading && is_nearly_numeric(row))
      sorted.nearly.push_back(std::move(row));
    else
      sorted.passed.push_back(line.number);
    if (!heading && !sorted.passed.empty() && sorted.passed.back() == line.number &&
        has_many_numbers(row_without_address(line)))
      sorted.doubtful.push_back(line.number);
    const bool behind_row = !sorted.rows.empty() && !sorted.passed.empty() &&
                            sorted.passed.back() == line.number &&
                            sorted.rows.back().line + 1 == &line;
    if (behind_row) sorted.rows.back().below = trim(line.text);
  }
  return sorted;
}

/// Refuses what is nearly a row and stands among the rows or beside them; what stands elsewhere is
/// passed over.
void settle_nearly(Sorted& sorted, const std::string& where) {
  for (const ListingRow& row : sorted.nearly) {
    const std::size_t number = row.line->number;
    const bool among = !sorted.rows.empty() && number + 1 >= sorted.rows.front().line->number &&
                       number <= sorted.rows.back().line->number + 1;
    if (among || sorted.rows.empty()) refuse_nearly(row, where);
    sorted.passed.push_back(number);
  }
}

}  // namespace

std::string line_list(const std::vector<std::size_t>& numbers) {
  std::vector<std::string> parts;
  for (std::size_t i = 0; i < numbers.size();) {
    std::size_t end = i;
    while (end + 1 < numbers.size() && numbers[end + 1] == numbers[end] + 1) ++end;
    parts.push_back(end == i ? std::to_string(numbers[i])
                             : fmt::format("{}-{}", numbers[i], numbers[end]));
    i = end + 1;
  }
  constexpr std::size_t most = 8;
  if (parts.size() > most) {
    parts.resize(most);
    parts.emplace_back("more");
  }
  return fmt::format("{} {}", numbers.size() == 1 ? "line" : "lines", join(parts, ", "));
}

Listing listing_of(std::string_view text, const std::string& where, const ReadingOptions& options) {
  Listing listing;
  ListingLines found = listing_lines(text, where);
  listing.lines = std::move(found.lines);
  listing.passed = std::move(found.passed);
  const auto label = common_label(listing.lines);
  listing.place = place_of(listing.lines, options, label);
  Sorted sorted = sort_lines(listing.lines, listing.place, label);
  settle_nearly(sorted, where);
  listing.rows = std::move(sorted.rows);
  listing.doubtful = std::move(sorted.doubtful);
  listing.passed.insert(listing.passed.end(), sorted.passed.begin(), sorted.passed.end());
  std::sort(listing.passed.begin(), listing.passed.end());
  for (ListingRow& row : listing.rows) count_skipped(row, where);
  return listing;
}

}  // namespace rtcmend