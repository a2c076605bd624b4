#include "forms/row_bytes.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "forms/source_lines.h"

namespace rtcmend {

namespace {

/// Where the character with this number begins, in UTF-8; the text's length when it has fewer.
std::size_t character_at(std::string_view text, std::size_t number) {
  std::size_t at = 0;
  while (at < text.size() && number > 0) {
    ++at;
    while (at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0) == 0x80) ++at;
    --number;
  }
  return at;
}

/// How a text fits as the column, and what it shows.
struct Column {
  AsciiFit fit = AsciiFit::none;
  std::string letters;
};

/// The fit of a column that may be in two halves, with a sign between them.
Column fit_of(const std::vector<DumpByte>& bytes, std::string_view text) {
  const Column whole{ascii_fit(bytes, text), letters_beside(bytes, text)};
  const std::size_t half = bytes.size() / 2;
  if (whole.fit == AsciiFit::exact || bytes.size() % 2 != 0) return whole;
  const std::size_t at = character_at(text, half);
  if (at >= text.size() || (text[at] != ' ' && text[at] != '|')) return whole;
  const auto middle = bytes.begin() + static_cast<std::ptrdiff_t>(half);
  const std::vector<DumpByte> low(bytes.begin(), middle), high(middle, bytes.end());
  const AsciiFit fit =
      std::min(ascii_fit(low, text.substr(0, at)), ascii_fit(high, text.substr(at + 1)));
  if (fit <= whole.fit) return whole;
  return {fit, letters_beside(low, text.substr(0, at)) + letters_beside(high, text.substr(at + 1))};
}

/// Whether a text column begins somewhere in the gap in front of `begin`: its own first characters
/// may be blanks. `from`: where the gap begins.
Column fit_behind_gap(const std::vector<DumpByte>& bytes, std::string_view line, std::size_t from,
                      std::size_t begin) {
  // No dump has longer rows, and a long line of anything else shall not cost time.
  constexpr std::size_t longest_row = 256;
  constexpr std::size_t longest_character = 4;
  if (bytes.size() > longest_row || line.size() - begin > longest_character * bytes.size() + 1)
    return {};
  Column best;
  for (std::size_t start = from; start <= begin && best.fit != AsciiFit::exact; ++start)
    if (Column column = fit_of(bytes, line.substr(start)); column.fit > best.fit)
      best = std::move(column);
  return best;
}

/// The column between bars or angles, without them.
std::optional<std::string_view> bounded_text(std::string_view tail) {
  if (tail.size() < 2) return std::nullopt;
  const bool bars = tail.front() == '|' && tail.back() == '|';
  const bool angles = tail.front() == '>' && tail.back() == '<';
  if (!bars && !angles) return std::nullopt;
  return tail.substr(1, tail.size() - 2);
}

/// A word of fewer bytes than its notation has may only end a row.
bool is_cut(const RowWord& word, const Notation& notation, const std::vector<DumpByte>& bytes) {
  return notation.width > 1 && notation.radix == 16 && bytes.size() < notation.width &&
         word.number->digits.find('?') == std::string_view::npos;
}

/// As many characters as the row has bytes, or one more between its halves: a text column in a
/// custom of its own.
bool is_column(std::string_view text, std::size_t bytes) {
  constexpr std::size_t fewest = 8;
  std::size_t characters = 0;
  for (const char c : trim(text))
    if ((static_cast<unsigned char>(c) & 0xC0) != 0x80) ++characters;
  return bytes >= fewest && (characters == bytes || characters == bytes + 1);
}

bool is_wide(std::string_view gap) {
  return gap.size() > 1 || gap == "\t";
}

}  // namespace

RowReading take_bytes(const ListingRow& row, const Notation& notation, std::size_t limit,
                      std::vector<DumpByte>& bytes) {
  RowReading reading;
  const std::string_view line = row.line->text;
  const bool continues = !bytes.empty();
  std::optional<RowWord> cut;
  for (std::size_t i = 0; i < row.words.size(); ++i) {
    const RowWord& word = row.words[i];
    const std::size_t from = i == 0 ? word.begin : row.words[i - 1].end;
    const bool first = i == 0 && !continues;
    Column beside;
    if (!first && (from < word.begin || i == 0))
      beside =
          fit_behind_gap(bytes, line, std::min(from + (i == 0 ? 0 : 1), word.begin), word.begin);
    const AsciiFit fit = beside.fit;
    const auto take_column = [&] {
      reading.text = fit;
      reading.letters = beside.letters;
    };
    const bool apart = i == 0 || is_wide(line.substr(from, word.begin - from));
    if (!first && apart && fit == AsciiFit::exact) {
      take_column();
      return reading;
    }
    const auto more = word.number ? bytes_of(*word.number, notation) : std::nullopt;
    if (bytes.size() >= limit || (more && bytes.size() + more->size() > limit)) {
      if (fit != AsciiFit::none) take_column();
      const bool column = fit == AsciiFit::none && is_column(line.substr(word.begin), bytes.size());
      reading.extra = more && fit == AsciiFit::none && !column;
      if (!more && fit == AsciiFit::none && !column) reading.remark = word.begin;
      return reading;
    }
    if (!more || cut) {
      if (fit != AsciiFit::none)
        take_column();
      else
        reading.bad = cut ? *cut : word;
      return reading;
    }
    if (is_cut(word, notation, *more)) cut = word;
    bytes.insert(bytes.end(), more->begin(), more->end());
  }
  if (const auto text = bounded_text(row.tail); text && !bytes.empty()) {
    reading.bounded = true;
    reading.text = ascii_fit(bytes, *text);
    reading.letters = letters_beside(bytes, *text);
  }
  return reading;
}

std::string problem_with(const RowWord& word, const Notation& notation) {
  const std::string said = in_quotes(word.text);
  if (!word.number) return notation.radix == 16 ? said + " is not hex" : said + " is not a number";
  const std::string_view digits = word.number->digits;
  const bool hex = notation.radix == 16;
  if (hex && word.number->mark == Mark::none && all_hex(digits) && digits.size() % 2 != 0)
    return said + " has an odd number of hex digits";
  if (hex && word.number->mark == Mark::hex && digits.size() > 2 * notation.width)
    return said + (notation.width == 1 ? " does not fit a byte" : " has too many digits");
  if (hex && !all_hex(digits)) return said + " is not hex";
  if (notation.padded && notation.width > 1)
    return fmt::format("{} has {} digits where the others have {}", said, digits.size(),
                       hex                   ? 2 * notation.width
                       : notation.width == 2 ? 6
                                             : 11);
  return fmt::format("{} is not one of the {} that the others are", said, in_words(notation));
}

}  // namespace rtcmend
