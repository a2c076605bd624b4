#include "forms/listing.h"

#include <algorithm>
#include <fmt/format.h>
#include <map>

#include "base/error.h"
#include "base/text.h"
#include "forms/source_lines.h"

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

bool has_digit(std::string_view text) {
  return text.find_first_of("0123456789") != std::string_view::npos;
}

/// Whether the line's words, its address among them, are numbers rather than words of a sentence.
bool is_numeric(const ListingRow& row) {
  const std::size_t run = leading_numbers(row);
  if (run == 0 || (run == 1 && row.words.size() > 1)) return false;
  const auto end = row.words.begin() + static_cast<std::ptrdiff_t>(run);
  const bool digits = std::any_of(row.words.begin(), end,
                                  [](const RowWord& word) { return has_digit(word.text); });
  const bool alike = std::all_of(row.words.begin(), end, [&](const RowWord& word) {
    return word.text.size() == row.words.front().text.size() && word.text.size() % 2 == 0;
  });
  return digits || alike;
}

/// Not a row, but more like one than like words: half of it numbers, and the rest short.
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

/// What most lines with a marked address have in front of it, as "Reg["; nothing when lines with
/// marked addresses are no more than the others.
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
  const auto most = std::max_element(labels.begin(), labels.end(), [](const auto& a, const auto& b) {
    return a.second < b.second;
  });
  // A wrapped line has a part with an address and one without.
  if (most == labels.end() || most->second * 2 < other) return std::nullopt;
  return most->first;
}

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

/// The number of digits that most bare addresses have.
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

/// "00 01 02 ...": the numbers of the columns, in any radix, on top of the rows.
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

Place place_of(const std::vector<ListingLine>& lines, const ReadingOptions& options,
               std::optional<std::string_view> label) {
  if (options.addresses == AddressKind::none) return Place::none;
  if (label) return Place::marked;
  if (has_bare_addresses(lines) || options.addresses) return Place::bare;
  return Place::none;
}

std::optional<LineAddress> address_of(const ListingLine& line, Place place,
                                      std::optional<std::string_view> label, std::size_t width) {
  if (place == Place::marked) {
    const auto address = marked_address(line.text);
    return address && address->label == *label ? address : std::nullopt;
  }
  if (place == Place::none) return std::nullopt;
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
         "bytes are two hex digits each, ?? for an unknown one, with blanks between them" +
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

/// "--" alone is an unknown byte among bytes that stand one a line, else what a mail puts in front of
/// a signature.
bool is_signature_mark(const ListingRow& row, const std::vector<ListingRow>& before) {
  if (trim(row.line->text) != "--") return false;
  return before.empty() || before.back().words.size() != 1 || before.back().line + 1 != row.line ||
         before.back().line->number + 1 != row.line->number;
}

Sorted sort_lines(const std::vector<ListingLine>& lines, Place place,
                  std::optional<std::string_view> label) {
  Sorted sorted;
  const std::size_t width = place == Place::bare ? common_width(lines) : 0;
  for (const ListingLine& line : lines) {
    const auto address = address_of(line, place, label, width);
    ListingRow row = address ? row_behind(line, *address) : row_without_address(line);
    const bool addressed = address && (row.words.empty() || row.words.front().number ||
                                       place == Place::marked);
    const bool heading = !address && sorted.rows.empty() && place != Place::none &&
                         is_column_heading(row);
    const bool mark = !address && is_signature_mark(row, sorted.rows);
    if (!mark && (row.star || addressed || (!heading && !address && is_numeric(row))))
      sorted.rows.push_back(std::move(row));
    else if (!mark && !heading && is_nearly_numeric(row))
      sorted.nearly.push_back(std::move(row));
    else
      sorted.passed.push_back(line.number);
    if (!heading && !sorted.passed.empty() && sorted.passed.back() == line.number &&
        has_many_numbers(row_without_address(line)))
      sorted.doubtful.push_back(line.number);
    const bool behind_row = sorted.rows.size() > 0 && !sorted.passed.empty() &&
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

std::string marked_line(const ListingLine& line, std::size_t column) {
  // A message is one line of words; what stands in the file follows on lines of its own.
  constexpr std::size_t most = 76;
  const std::size_t begin = column < most - 8 ? 0 : column - most / 2;
  const std::string text = printable(line.shown.substr(std::min(begin, line.shown.size()), most));
  std::string plain = text;
  std::replace(plain.begin(), plain.end(), '\t', ' ');
  return fmt::format("\n  {}\n  {}^", plain, std::string(column - begin, ' '));
}

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

Listing listing_of(std::string_view text, const std::string& where,
                   const ReadingOptions& options) {
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
