#include "forms/listing_row.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"

namespace rtcmend {

namespace {

constexpr std::string_view separators = " \t\f\v,;";

bool is_separator(char c) {
  return separators.find(c) != std::string_view::npos;
}

/// A sign behind which no bytes stand: a bar or an angle in front of the text column, a comment.
bool ends_bytes(std::string_view rest) {
  return std::string_view("|>#").find(rest.front()) != std::string_view::npos ||
         rest.starts_with("//") || rest.starts_with("; ");
}

/// "2100-5800": groups of digits with dashes between them; nothing when it is something else.
std::vector<std::string_view> joined_groups(std::string_view word) {
  std::vector<std::string_view> groups;
  for (std::size_t at = 0; at <= word.size();) {
    const std::size_t end = std::min(word.find('-', at), word.size());
    const std::string_view group = word.substr(at, end - at);
    if (!all_hex(group) || group.size() % 2 != 0) return {};
    groups.push_back(group);
    at = end + 1;
  }
  return groups;
}

/// "41-42": pairs that a debugger joins in the middle of a row.
std::vector<std::string_view> joined_pairs(std::string_view word) {
  std::vector<std::string_view> pairs = joined_groups(word);
  if (pairs.size() > 1) return pairs;
  pairs.clear();
  while (word.size() > 3 && word[2] == '-' && all_hex(word.substr(0, 2)) &&
         (word[3] != '-' || word.size() % 2 != 0)) {
    pairs.push_back(word.substr(0, 2));
    word.remove_prefix(3);
  }
  pairs.push_back(word);
  return pairs;
}

std::string_view without_quotes(std::string_view word) {
  constexpr std::string_view quotes = "\"'";
  if (word.size() < 3 || quotes.find(word.front()) == std::string_view::npos) return word;
  return word.back() == word.front() ? word.substr(1, word.size() - 2) : word;
}

void add_word(ListingRow& row, std::string_view word, std::string_view line) {
  for (std::string_view piece : joined_pairs(word)) {
    piece = without_quotes(piece);
    const auto begin = static_cast<std::size_t>(piece.data() - line.data());
    row.words.push_back({piece, begin, begin + piece.size(), number_in(piece)});
  }
}

void take_words(ListingRow& row, std::string_view line, std::size_t from) {
  std::size_t at = from;
  while (at < line.size()) {
    const std::size_t gap = at;
    while (at < line.size() && is_separator(line[at]) && !line.substr(at).starts_with("; ")) ++at;
    if (at == line.size()) return;
    if (!row.words.empty() && (at > gap || line[at] == ';') && ends_bytes(line.substr(at))) {
      row.tail = line.substr(at);
      return;
    }
    if (at == gap && line[at] == ';') ++at;  // a remark in front of any byte
    std::size_t end = at;
    while (end < line.size() && !is_separator(line[end])) ++end;
    if (end == at) return;
    const std::string_view word = line.substr(at, end - at);
    if (word != "-") add_word(row, word, line);
    at = end;
  }
}

std::size_t leading_numbers(const ListingRow& row) {
  const auto end = std::find_if(row.words.begin(), row.words.end(),
                                [](const RowWord& word) { return !word.number; });
  return static_cast<std::size_t>(end - row.words.begin());
}

}  // namespace

bool has_digit(std::string_view text) {
  return text.find_first_of("0123456789") != std::string_view::npos;
}

bool is_numeric(const ListingRow& row) {
  const std::size_t run = leading_numbers(row);
  if (run == 0 || (run == 1 && row.words.size() > 1)) return false;
  const auto end = row.words.begin() + static_cast<std::ptrdiff_t>(run);
  const bool digits =
      std::any_of(row.words.begin(), end, [](const RowWord& word) { return has_digit(word.text); });
  const bool alike = std::all_of(row.words.begin(), end, [&](const RowWord& word) {
    return word.text.size() == row.words.front().text.size() && word.text.size() % 2 == 0;
  });
  return digits || alike;
}

bool is_nearly_numeric(const ListingRow& row) {
  std::size_t numbers = 0;
  for (const RowWord& word : row.words) {
    if (word.number) ++numbers;
    constexpr std::size_t longest = 5;
    if (!word.number && word.text.size() > longest) return false;
  }
  return numbers > 0 && numbers * 2 >= row.words.size();
}

ListingRow row_without_address(const ListingLine& line) {
  ListingRow row{&line};
  take_words(row, line.text, 0);
  row.star = trim(line.text) == "*";
  return row;
}

ListingRow row_behind(const ListingLine& line, const LineAddress& address) {
  ListingRow row{&line, address};
  take_words(row, line.text, address.rest);
  return row;
}

bool is_column_heading(const ListingRow& row) {
  constexpr std::size_t fewest = 4;
  if (row.words.size() < fewest) return false;
  for (const int radix : {16, 10}) {
    std::size_t next = 0;
    for (const RowWord& word : row.words) {
      if (!word.number || value_in(word.number->digits, radix) != next) break;
      ++next;
    }
    if (next >= fewest && next >= row.words.size() - 1) return true;
  }
  return false;
}

std::string marked_line(const ListingLine& line, std::size_t column) {
  // A message is one line of words; what stands in the file follows on lines of its own.
  constexpr std::size_t most = 76;
  const std::size_t begin = column < most - 8 ? 0 : column - most / 2;
  const std::string text = printable(line.shown.substr(std::min(begin, line.shown.size()), most));
  std::string plain = text;
  std::replace(plain.begin(), plain.end(), '\t', ' ');
  return fmt::format("\n  {}\n  {}^", plain, std::string(column - begin, ' '));
}

}  // namespace rtcmend
