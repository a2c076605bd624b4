#include "forms/listing_slips.h"

#include <algorithm>
#include <cctype>
#include <fmt/format.h>
#include <map>
#include <optional>

#include "base/text.h"
#include "forms/listing_lines.h"
#include "forms/listing_row.h"
#include "forms/row_slips.h"
#include "forms/source_lines.h"

namespace rtcmend {

namespace {

struct Word {
  std::string_view text;
  std::size_t begin;
};

/// A line as somebody typed it: what stands for the address, and what for the bytes.
struct TypedRow {
  const ListingLine* line;
  std::optional<Word> address;
  std::vector<Word> bytes;

  std::size_t end() const {
    return bytes.empty() ? line->text.size() : bytes.back().begin + bytes.back().text.size();
  }
};

bool is_alnum(char c) {
  return std::isalnum(static_cast<unsigned char>(c)) != 0;
}

/// The digits that a word was meant to be, letters taken for the digits that they look like;
/// nothing where one is like none.
std::optional<std::string> digits_of(std::string_view word) {
  std::string digits;
  for (const char c : word) {
    const char digit = is_hex_digit(c) ? c : digit_for(c);
    if (digit == 0) return std::nullopt;
    digits += digit;
  }
  return digits;
}

/// Whether a word may stand for a byte: two characters that are digits, look like digits, or say
/// that the byte is unknown.
bool is_like_byte(std::string_view word) {
  return word == "??" || word == "--" || (word.size() == 2 && digits_of(word).has_value());
}

/// A byte with a digit lost or a digit too many.
bool is_odd_byte(std::string_view word) {
  return (word.size() == 1 || word.size() == 3) && all_hex(word);
}

std::vector<Word> words_of(std::string_view line, std::size_t from) {
  std::vector<Word> words;
  while ((from = line.find_first_not_of(" \t,;", from)) != std::string_view::npos) {
    const std::size_t end = std::min(line.find_first_of(" \t,;", from), line.size());
    words.push_back({line.substr(from, end - from), from});
    from = end;
  }
  return words;
}

/// The address in front of a colon; without colons, a first word of four digits or more.
std::optional<Word> address_of(std::string_view line, std::size_t& behind) {
  const std::vector<Word> words = words_of(line, 0);
  if (words.empty()) return std::nullopt;
  const auto& [first, begin] = words.front();
  const std::size_t colon = first.find(':');
  constexpr std::size_t longest = 8;
  if (colon != std::string_view::npos && colon > 0 && colon <= longest) {
    behind = begin + colon + 1;
    return Word{first.substr(0, colon), begin};
  }
  constexpr std::size_t fewest = 4;
  const bool long_first = first.size() >= fewest && first.size() <= longest && words.size() > 1 &&
                          words[1].text.size() < fewest && digits_of(first).has_value() &&
                          std::any_of(first.begin(), first.end(), is_hex_digit);
  if (!long_first) return std::nullopt;
  behind = begin + first.size();
  return words.front();
}

/// The bytes of a line end at a bar, or at a gap in front of what may be its text column: one gap
/// is the middle of the row.
TypedRow row_of(const ListingLine& line) {
  constexpr std::size_t half = 8;
  TypedRow row{&line, std::nullopt, {}};
  std::size_t from = 0;
  row.address = address_of(line.text, from);
  // "IO:" passes for a word in front of the bytes, and was taken off.
  if (!row.address) {
    const auto word = address_of(line.shown, from);
    if (word && word->text.size() <= 4 && digits_of(word->text)) row.address = word;
    if (!row.address) from = 0;
  }
  for (const Word& word : words_of(line.text, from)) {
    if (std::string_view("|>#").find(word.text.front()) != std::string_view::npos) break;
    const bool apart = !row.bytes.empty() && word.begin > row.end() + 1;
    if (apart && row.bytes.size() != half) break;
    if (!is_like_byte(word.text) && !is_odd_byte(word.text)) {
      const bool short_word = word.text.size() <= 3 && is_alnum(word.text.front());
      if (!short_word) break;
    }
    row.bytes.push_back(word);
  }
  return row;
}

std::optional<std::uint64_t> value_of(const Word& address) {
  return all_hex(address.text) ? value_in(address.text, 16) : std::nullopt;
}

/// What at least half of so many agree on.
template <typename Value>
std::optional<Value> commonest(const std::map<Value, std::size_t>& counts, std::size_t of) {
  const auto most =
      std::max_element(counts.begin(), counts.end(),
                       [](const auto& a, const auto& b) { return a.second < b.second; });
  if (most == counts.end() || most->second * 2 < of) return std::nullopt;
  return most->first;
}

class Slips {
 public:
  explicit Slips(const std::vector<ListingLine>& lines) {
    for (const ListingLine& line : lines) {
      TypedRow row = row_of(line);
      if (row.bytes.empty() || is_heading(row)) continue;
      rows_.push_back(std::move(row));
    }
    learn_step();
    learn_size();
  }

  std::vector<ListingSlip> all() {
    if (rows_.size() < 2 || !has_common_form()) return {};
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      if (is_of_another_form(rows_[i], i + 1 == rows_.size())) {
        add(rows_[i], 0, in_quotes(trim(rows_[i].line->shown)) + " is no row like the others",
            fmt::format("each of them has {}{} bytes",
                        rows_.front().address ? "an address and " : "", *size_));
        continue;
      }
      judge_address(i);
      judge_bytes(rows_[i]);
      judge_size(rows_[i], i + 1 == rows_.size());
    }
    return std::move(slips_);
  }

 private:
  static bool is_heading(const TypedRow& row) {
    return !row.address && is_column_heading(row_without_address(*row.line));
  }
  /// Most lines are rows without a fault of their own, and all or none have addresses.
  bool has_common_form() const {
    std::size_t addressed = 0, good = 0;
    for (const TypedRow& row : rows_) {
      addressed += row.address ? 1 : 0;
      good += std::all_of(row.bytes.begin(), row.bytes.end(),
                          [](const Word& word) { return is_like_byte(word.text); })
                  ? 1
                  : 0;
    }
    return good * 2 >= rows_.size() && (addressed == 0 || addressed * 2 > rows_.size());
  }
  bool is_of_another_form(const TypedRow& row, bool last) const {
    if (!size_ || row.bytes.size() * 2 >= *size_) return false;
    return !last || (row.address && !value_of(*row.address));
  }
  void learn_step() {
    std::map<std::uint64_t, std::size_t> steps;
    std::size_t pairs = 0;
    for (std::size_t i = 0; i + 1 < rows_.size(); ++i) {
      const auto here = address(i), next = address(i + 1);
      if (!here || !next) continue;
      ++pairs;
      constexpr std::uint64_t longest = 32;
      if (*next > *here && *next - *here <= longest) ++steps[*next - *here];
    }
    step_ = commonest(steps, pairs);
  }
  void learn_size() {
    std::map<std::size_t, std::size_t> sizes;
    for (const TypedRow& row : rows_) ++sizes[row.bytes.size()];
    // Of two rows, neither is the rule.
    constexpr std::size_t fewest = 3;
    if (rows_.size() < fewest) return;
    size_ = commonest(sizes, rows_.size());
    if (step_ && rows_.front().address) size_ = static_cast<std::size_t>(*step_);
    if (size_ && !step_) step_ = *size_;
  }
  std::optional<std::uint64_t> address(std::size_t i) const {
    if (i >= rows_.size() || !rows_[i].address) return std::nullopt;
    return value_of(*rows_[i].address);
  }
  /// What the rows around it say that the address of one is.
  std::optional<std::uint64_t> expected(std::size_t i) const {
    if (!step_) return std::nullopt;
    const std::optional<std::uint64_t> next = address(i + 1);
    if (i == 0 || !address(i - 1))
      return next && *next >= *step_ ? std::optional(*next - *step_) : std::nullopt;
    const std::uint64_t due = *address(i - 1) + *step_;
    return !next || *next == due + *step_ ? std::optional(due) : std::nullopt;
  }

  bool stands_somewhere(std::uint64_t wanted) const {
    for (std::size_t i = 0; i < rows_.size(); ++i)
      if (address(i) == wanted) return true;
    return false;
  }

  void add(const TypedRow& row, std::size_t column, std::string what, std::string meant) {
    slips_.push_back({row.line->number, column, std::move(what), std::move(meant),
                      marked_line(*row.line, column), false});
  }
  static std::string did_you_mean(std::string_view digits) {
    return fmt::format("did you mean {}?", digits);
  }

  void judge_address(std::size_t i) {
    const TypedRow& row = rows_[i];
    if (!row.address) return;
    const Word& word = *row.address;
    const auto due = expected(i);
    const auto due_text = [&] {
      return fmt::format("{:0{}X}", *due, static_cast<int>(word.text.size()));
    };
    if (!all_hex(word.text)) {
      const auto digits = digits_of(word.text);
      const bool fits = digits && (!due || value_in(*digits, 16) == due);
      add(row, word.begin, in_quotes(word.text) + " is no address",
          fits  ? did_you_mean(*digits)
          : due ? fmt::format("by the rows around it, it is {}", due_text())
                : "an address is hex digits alone");
      return;
    }
    const bool between = i > 0 && i + 1 < rows_.size() && address(i - 1) && address(i + 1);
    if (!between || !due || address(i) == due) return;
    const std::string_view before = rows_[i - 1].address->text, next = rows_[i + 1].address->text;
    add(row, word.begin,
        word.text.size() != before.size()
            ? fmt::format("the address {} does not have as many digits as the others",
                          in_quotes(word.text))
            : fmt::format("the address {} does not stand between {} and {}", word.text, before,
                          next),
        did_you_mean(fmt::format("{:0{}X}", *due, static_cast<int>(before.size()))));
    slips_.back().misplaces = !stands_somewhere(*due);
  }
  void judge_bytes(const TypedRow& row) {
    for (std::size_t k = 0; k < row.bytes.size(); ++k) {
      const auto& [text, begin] = row.bytes[k];
      if (is_odd_byte(text)) {
        add(row, begin, in_quotes(text) + " has an odd number of hex digits",
            fmt::format(
                "byte {} of the row: {}; a byte is two digits", k + 1,
                text.size() == 1 ? "one was lost" : "one stands twice, or a blank was lost"));
        continue;
      }
      if (text == "??" || text == "--" || all_hex(text)) continue;
      const auto digits = digits_of(text);
      add(row, begin, in_quotes(text) + " is not hex",
          digits && text.size() == 2
              ? fmt::format("byte {} of the row: {}", k + 1, did_you_mean(*digits))
              : fmt::format("byte {} of the row: bytes are two hex digits each, ?? for an "
                            "unknown one",
                            k + 1));
    }
  }
  void judge_size(const TypedRow& row, bool last) {
    if (!size_ || row.bytes.size() == *size_ || (last && row.bytes.size() < *size_)) return;
    const std::string name = row.address ? fmt::format("row {}", row.address->text) : "this row";
    const bool fewer = row.bytes.size() < *size_;
    // A bad word may be two bytes, or none: that is told already.
    if (std::any_of(row.bytes.begin(), row.bytes.end(),
                    [](const Word& word) { return word.text.size() != 2; }))
      return;
    add(row, row.end(),
        fmt::format("{} has {} bytes, and the others have {}", name, row.bytes.size(), *size_),
        fewer ? "a byte was lost; write ?? for one that cannot be read"
              : "a byte stands twice, or two rows ran together");
  }

  std::vector<TypedRow> rows_;
  std::optional<std::uint64_t> step_;
  std::optional<std::size_t> size_;
  std::vector<ListingSlip> slips_;
};

/// "2 slips in all:", and a line for each.
std::string list_of(const std::vector<ListingSlip>& slips) {
  constexpr std::size_t most = 40;
  std::string text = fmt::format("\n  {} slips in all:", slips.size());
  for (std::size_t i = 0; i < std::min(most, slips.size()); ++i)
    text += fmt::format("\n  line {}, column {}: {}; {}", slips[i].line, slips[i].column + 1,
                        slips[i].what, slips[i].meant);
  if (slips.size() > most) text += "\n  and more";
  return text;
}

}  // namespace

std::vector<ListingSlip> listing_slips(std::string_view text, const std::string& where) {
  const ListingLines lines = listing_lines(text, where);
  return Slips(lines.lines).all();
}

namespace {

Error all_slips(Refusal refusal, const std::vector<ListingSlip>& slips, const std::string& where) {
  const ListingSlip& first = slips.front();
  std::string excerpt = first.shown;
  if (slips.size() > 1) excerpt += list_of(slips);
  return Error(refusal, place(where, first.line), first.what, first.meant, std::move(excerpt));
}

}  // namespace

void refuse_misplaced_rows(std::string_view text, const std::string& where) {
  std::vector<ListingSlip> slips = listing_slips(text, where);
  std::erase_if(slips, [](const ListingSlip& slip) { return !slip.misplaces; });
  if (!slips.empty()) throw all_slips(Refusal::input, slips, where);
}

Error with_all_slips(const Error& error, std::string_view text, const std::string& where) {
  const std::vector<ListingSlip> slips = listing_slips(text, where);
  return slips.empty() ? error : all_slips(error.refusal(), slips, where);
}

}  // namespace rtcmend
