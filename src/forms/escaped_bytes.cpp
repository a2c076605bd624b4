#include <algorithm>
#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "forms/encoded_bytes.h"
#include "forms/number.h"
#include "forms/source_lines.h"

namespace rtcmend {

namespace {

std::string place_at(std::string_view text, std::size_t at, const std::string& where) {
  const auto end = text.begin() + static_cast<std::ptrdiff_t>(std::min(at, text.size()));
  return place(where, 1 + static_cast<std::size_t>(std::count(text.begin(), end, '\n')));
}

/// Reads the escapes of one literal. The longest run of literals that follow one another wins, so
/// each is kept apart until it is known which that is.
class Literal {
 public:
  Literal(std::string_view text, std::size_t quote, const std::string& where)
      : text_(text), where_(where), at_(quote + 1), quote_(text[quote]) {}

  /// False when the literal is not closed.
  bool read() {
    while (at_ < text_.size() && text_[at_] != quote_) {
      if (text_[at_] == '\n' || text_[at_] == '\r') return false;
      if (text_[at_] == '\\')
        escape();
      else
        bytes.emplace_back(static_cast<std::uint8_t>(text_[at_++]));
    }
    return at_ < text_.size();
  }

  std::size_t end() const { return at_ + 1; }

  std::vector<DumpByte> bytes;
  std::size_t escapes = 0;  ///< of those by number
  std::optional<Error> error;

 private:
  std::string_view digits(std::size_t most, std::string_view set) {
    std::size_t end = at_;
    while (end < text_.size() && end - at_ < most && set.find(text_[end]) != std::string_view::npos)
      ++end;
    const std::string_view found = text_.substr(at_, end - at_);
    at_ = end;
    return found;
  }

  void number(std::string_view found, std::size_t wanted, int radix) {
    ++escapes;
    const auto value = value_in(found, radix);
    if (found.size() == wanted && value && *value <= 0xFF) {
      bytes.emplace_back(static_cast<std::uint8_t>(*value));
      return;
    }
    if (!error)
      error = Error(Refusal::input, place_at(text_, at_, where_),
                    fmt::format("the escape \\{}{} does not have {} digits", radix == 16 ? "x" : "",
                                printable(found), wanted),
                    "a digit was lost there; compare the string with its source");
  }

  void escape() {
    constexpr std::string_view hex = "0123456789abcdefABCDEF";
    const char c = ++at_ < text_.size() ? text_[at_] : '\0';
    constexpr std::string_view letters = "abtnvfre\\'\"";
    constexpr std::string_view values = "\a\b\t\n\v\f\r\x1B\\'\"";
    if (c == 'x' || c == 'u') {
      ++at_;
      if (c == 'u' && text_.substr(at_, 2) == "00") at_ += 2;
      number(digits(2, hex), 2, 16);
    } else if (c >= '0' && c <= '7') {
      const std::string_view octal = digits(3, "01234567");
      number(octal, octal == "0" ? 1 : 3, 8);
    } else if (const auto known = letters.find(c); c != '\0' && known != std::string_view::npos) {
      bytes.emplace_back(static_cast<std::uint8_t>(values[known]));
      ++at_;
    } else if (c == '\n' || c == '\r') {
      ++at_;  // the string goes on in the next line
      if (c == '\r' && at_ < text_.size() && text_[at_] == '\n') ++at_;
    } else {
      if (!error)
        error =
            Error(Refusal::input, place_at(text_, at_, where_), "a \\ with nothing known behind it",
                  "escapes are \\x and two hex digits, or \\ and three octal ones");
      ++at_;
    }
  }

  std::string_view text_;
  std::string where_;
  std::size_t at_;
  char quote_;
};

/// Literals that follow one another with nothing but blanks and signs of joining between them.
struct Run {
  std::vector<DumpByte> bytes;
  std::size_t escapes = 0;
  std::optional<Error> error;
};

}  // namespace

std::optional<Encoded> escaped_bytes(std::string_view text, const std::string& where) {
  if (text.find("\\x") == std::string_view::npos && text.find("\\0") == std::string_view::npos &&
      text.find("\\u00") == std::string_view::npos)
    return std::nullopt;
  constexpr std::size_t fewest_escapes = 4;
  std::size_t runs = 0;
  Run best;
  Run run;
  const auto finish = [&] {
    if (run.escapes >= fewest_escapes) ++runs;
    if (run.escapes > best.escapes) best = run;
    run = {};
  };
  for (std::size_t at = 0; at < text.size();) {
    const char c = text[at];
    if (c == '"' || c == '\'') {
      Literal literal(text, at, where);
      if (!literal.read()) {
        finish();
        ++at;
        continue;
      }
      run.bytes.insert(run.bytes.end(), literal.bytes.begin(), literal.bytes.end());
      run.escapes += literal.escapes;
      if (literal.error && !run.error) run.error = literal.error;
      at = literal.end();
      continue;
    }
    // What joins two literals, and the b or r in front of the next.
    if (std::string_view(" \t\r\n+.&\\br").find(c) == std::string_view::npos) finish();
    ++at;
  }
  finish();
  if (best.escapes < fewest_escapes) return std::nullopt;
  if (best.error) throw *best.error;
  return Encoded{best.bytes, runs - 1};
}

}  // namespace rtcmend
