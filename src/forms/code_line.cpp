#include "forms/code_line.h"

#include <algorithm>
#include <cctype>
#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "check/crc.h"
#include "forms/code_text.h"
#include "forms/source_lines.h"

namespace rtcmend {

namespace {

constexpr std::string_view read_again = "show the code again and read it again, all of it";
constexpr std::size_t check_digits = 4;
constexpr std::size_t byte_digits = 2 * bytes_a_code;

bool is_digit(char c) {
  return std::isdigit(static_cast<unsigned char>(c)) != 0;
}

bool is_byte_digit(char c) {
  return std::isxdigit(static_cast<unsigned char>(c)) != 0 || c == 'X';
}

/// The mark with a version behind it.
bool is_marked(std::string_view letters) {
  return letters.starts_with(code_mark) && letters.size() > code_mark.size() &&
         is_digit(letters[code_mark.size()]);
}

/// Size and first address with bytes behind, far more of them than a date or a path has.
bool is_behind_a_mark(std::string_view letters) {
  constexpr std::size_t enough = 32;
  for (const std::string_view head : {"/64/00/", "/128/00/", "/128/40/"}) {
    if (!letters.starts_with(head) || letters.size() < head.size() + enough) continue;
    const std::string_view digits = letters.substr(head.size(), enough);
    if (std::all_of(digits.begin(), digits.end(), is_byte_digit)) return true;
  }
  return false;
}

/// From where a mark of one digit's version would begin.
std::string_view before(std::string_view letters, std::size_t at) {
  const std::size_t length = code_mark.size() + 1;
  return at < length ? std::string_view{} : letters.substr(at - length);
}

/// Takes the parts of a code one after the other.
class Parts {
 public:
  Parts(const CodeLetters& letters, std::size_t at, const std::string& where)
      : text_(letters.text), begin_(at), at_(at), here_(place(where, letters.lines[at])) {
    at_ += code_mark.size();
  }

  /// Digits in front of the next stroke.
  std::string number(std::string_view what) { return before_stroke(is_digit, 3, what); }
  std::string hex(std::size_t count, std::string_view what) {
    std::string part = before_stroke(is_byte_digit, count, what);
    if (part.size() != count) fail(fmt::format("{} is no {}", in_quotes(part), what));
    return part;
  }

  std::string bytes() {
    std::string part = while_in(is_byte_digit, text_.size());
    const bool ended = at_ == text_.size() || text_[at_] != '/';
    if (part.size() < byte_digits && ended)
      fail(fmt::format("the code is cut off or broken after {} of its {} digits of bytes{}",
                       part.size(), byte_digits, stopped_by()));
    if (part.size() != byte_digits)
      fail(fmt::format("the code has {} digits of bytes, and {} make its {} bytes", part.size(),
                       byte_digits, bytes_a_code));
    stroke("bytes");
    return part;
  }

  /// The code's own check, which nothing need end.
  std::string check() {
    std::string part = while_in(is_byte_digit, check_digits);
    if (part.size() < check_digits)
      fail(fmt::format("the code is cut off or broken within its check{}", stopped_by()));
    return part;
  }

  std::string so_far() const { return text_.substr(begin_, at_ - begin_); }
  const std::string& here() const { return here_; }
  [[noreturn]] void fail(const std::string& what) const {
    refuse(here_, what, std::string(read_again));
  }

 private:
  template <typename Test>
  std::string while_in(const Test& belongs, std::size_t most) {
    const std::size_t from = at_;
    while (at_ < text_.size() && at_ - from < most && belongs(text_[at_])) ++at_;
    return text_.substr(from, at_ - from);
  }

  template <typename Test>
  std::string before_stroke(const Test& belongs, std::size_t most, std::string_view what) {
    std::string part = while_in(belongs, most);
    stroke(what);
    return part;
  }

  void stroke(std::string_view what) {
    if (at_ == text_.size() || text_[at_] != '/')
      fail(fmt::format("the code is cut off or broken within its {}{}", what, stopped_by()));
    ++at_;
  }

  std::string stopped_by() const {
    if (at_ == text_.size()) return {};
    return fmt::format(": {} stands there", in_quotes(text_.substr(at_, 1)));
  }

  const std::string& text_;
  std::size_t begin_;
  std::size_t at_;
  std::string here_;
};

/// Where a character of a code stands, in words.
std::string spot_of(const CodeLine& code, std::size_t at, std::size_t bytes_at) {
  if (at < bytes_at) return "in its head";
  if (at < bytes_at + byte_digits)
    return "at " + hex_prose(static_cast<std::uint8_t>(code.first + (at - bytes_at) / 2));
  return "in its checks";
}

/// Single digits that, read otherwise, would make the code fit its check and, where it holds the
/// whole chip, the chip's.
std::vector<std::string> likely_slips(const CodeLine& code, std::string text) {
  const std::size_t bytes_at = text.size() - 2 * (check_digits + 1) - byte_digits;
  std::vector<std::string> slips;
  for (std::size_t at = bytes_at; at < text.size(); ++at) {
    const char read = text[at];
    if (read == '/') continue;
    for (const char digit : std::string_view("0123456789ABCDEF")) {
      text[at] = digit;
      const std::size_t check_at = text.size() - check_digits;
      const bool fits = check_of(text.substr(0, check_at)) == text.substr(check_at);
      const bool whole = code.size == bytes_a_code;
      const std::string chip = check_of(text.substr(bytes_at, byte_digits));
      if (fits && (!whole || chip == text.substr(bytes_at + byte_digits + 1, check_digits)))
        slips.push_back(
            fmt::format("{} {} was read as {}", digit, spot_of(code, at, bytes_at), read));
    }
    text[at] = read;
  }
  return slips;
}

void check_code(const CodeLine& code, const std::string& text, const std::string& here) {
  const std::string check = text.substr(text.size() - check_digits);
  const std::string found = check_of(text.substr(0, text.size() - check_digits));
  if (check == found) return;
  const std::vector<std::string> slips = likely_slips(code, text);
  refuse(here,
         fmt::format("the code of {} does not fit its check: it says {}, its text gives {}",
                     code.range(), check, found),
         slips.size() == 1
             ? "the likely slip: " + slips.front()
             : "a character was changed, lost or swapped; " + std::string(read_again));
}

void check_pairs(const CodeLine& code, const Parts& parts) {
  for (std::size_t i = 0; i < code.digits.size(); i += 2)
    if ((code.digits[i] == 'X') != (code.digits[i + 1] == 'X'))
      parts.fail(fmt::format("{} at {} is half a byte", in_quotes(code.digits.substr(i, 2)),
                             hex_prose(static_cast<std::uint8_t>(code.first + i / 2))));
}

}  // namespace

std::string check_of(std::string_view text) {
  const std::vector<std::uint8_t> bytes(text.begin(), text.end());
  return fmt::format("{:04X}", crc_bitwise(crc_models::ibm_3740, bytes));
}

CodeLetters code_letters(std::string_view content) {
  CodeLetters letters;
  std::size_t number = 0;
  for (const std::string_view line : lines(content)) {
    ++number;
    for (const char c : line) {
      if (std::isspace(static_cast<unsigned char>(c)) != 0) continue;
      letters.text += static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
      letters.lines.push_back(number);
    }
  }
  return letters;
}

std::vector<std::size_t> code_places(std::string_view letters) {
  std::vector<std::size_t> places;
  for (std::size_t at = 0; at < letters.size(); ++at) {
    const std::string_view rest = letters.substr(at);
    if (is_marked(rest) || (is_behind_a_mark(rest) && !is_marked(before(letters, at))))
      places.push_back(at);
  }
  return places;
}

std::string CodeLine::range() const {
  const auto last = static_cast<std::uint8_t>(first + bytes_a_code - 1);
  return fmt::format("{} to {}", hex_prose(first), hex_prose(last));
}

CodeLine code_at(const CodeLetters& letters, std::size_t at, const std::string& where) {
  Parts parts(letters, at, where);
  if (!is_marked(std::string_view(letters.text).substr(at)))
    parts.fail(fmt::format("the head of a code is damaged: a code begins with {}{}/", code_mark,
                           code_version));
  const std::string version = parts.number("version");
  if (version != std::to_string(code_version))
    refuse(parts.here(),
           fmt::format("this code is written in version {} of the form, and version {} is known",
                       version, code_version),
           "read it with a newer program, or with the one that made it");
  CodeLine code{letters.lines[at], 0, 0, {}, {}};
  const std::string size = parts.number("size");
  if (size != "64" && size != "128") parts.fail(fmt::format("{} is no size", in_quotes(size)));
  code.size = size == "64" ? 64 : 128;
  const std::string first = parts.hex(2, "first address");
  if (first != "00" && (first != "40" || code.size == bytes_a_code))
    parts.fail(fmt::format("{} is no first address on a chip of {} bytes", in_quotes(first), size));
  code.first = first == "00" ? 0 : bytes_a_code;
  code.digits = parts.bytes();
  code.chip_check = parts.hex(check_digits, "chip's check");
  parts.check();
  check_code(code, parts.so_far(), parts.here());
  check_pairs(code, parts);
  return code;
}

}  // namespace rtcmend
