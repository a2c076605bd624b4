#include "forms/hex_session.h"

#include <algorithm>
#include <cctype>
#include <fmt/format.h>
#include <optional>
#include <utility>

#include "base/error.h"
#include "base/text.h"
#include "forms/error_list.h"
#include "forms/gather.h"
#include "forms/number.h"
#include "forms/row_slips.h"

namespace rtcmend {

namespace {

constexpr std::uint32_t select_port = 0x70;
constexpr std::uint32_t data_port = 0x71;

bool is_letter(char c) {
  return std::isalpha(static_cast<unsigned char>(c)) != 0;
}

std::string_view without_prompt(std::string_view line) {
  line = trim(line);
  if (!line.empty() && line.front() == '-' && line.substr(0, 2) != "--") line.remove_prefix(1);
  return trim(line);
}

/// "o 70 10" or "i 71", in either case, with a blank or comma between the numbers.
struct PortCommand {
  char letter;
  std::uint32_t port;
  std::optional<std::uint32_t> value;
};

std::optional<PortCommand> parse_command(std::string_view line) {
  std::string text = lower(without_prompt(line));
  if (text.empty() || (text[0] != 'o' && text[0] != 'i')) return std::nullopt;
  std::replace(text.begin(), text.end(), ',', ' ');
  std::vector<std::uint32_t> numbers;
  for (const std::string& word : split(std::string_view(text).substr(1), ' ')) {
    if (word.empty()) continue;
    const auto number = parse_hex(word, 0xFFFF);
    if (!number) return std::nullopt;
    numbers.push_back(*number);
  }
  const std::size_t wanted = text[0] == 'o' ? 2 : 1;
  if (numbers.size() != wanted) return std::nullopt;
  if (wanted == 1) return PortCommand{'i', numbers[0], std::nullopt};
  return PortCommand{'o', numbers[0], numbers[1]};
}

bool selects(const PortCommand& command) {
  return command.letter == 'o' && command.port == select_port;
}

/// What has been typed so far, and what answer is due.
class Session {
 public:
  explicit Session(std::string where) : where_(std::move(where)), bytes_(where_) {}

  void command(const PortCommand& command, std::size_t line) {
    expect_no_answer(line);
    const std::string here = place(where_, line);
    if (selects(command)) {
      const std::optional<std::uint32_t> before = is_read_ ? std::nullopt : selected_;
      selected_ = *command.value & 0x7F;
      is_read_ = false;
      // The same byte once more is a command that was repeated.
      if (before && *before != *selected_)
        refuse(here, fmt::format("byte {:02X}h was selected above, and nothing read it", *before),
               "put i 71 and its value above this line, or leave out that o 70");
      return;
    }
    if (command.letter == 'o' && command.port == data_port) {
      is_read_ = true;
      refuse(here, "the session writes to port 71, so what it read may no longer hold",
             "give a session that only reads the chip");
    }
    if (command.letter == 'o') return;
    if (command.port == data_port && !selected_) {
      asked_ = select_port;  // its value is nothing to complain about once more
      refuse(here, "port 71 is read, but no o 70 before it says which byte that is");
    }
    is_read_ = is_read_ || command.port == data_port;
    asked_ = command.port;
  }

  void answer(std::string_view digits, std::size_t line) {
    if (!asked_)
      refuse(place(where_, line), fmt::format("{} answers no i 71", in_quotes(digits)),
             "the line above a value must be i 71");
    const auto value = parse_hex(digits, 0xFF);
    if (asked_ == data_port) bytes_.put(*selected_, static_cast<std::uint8_t>(*value), line);
    asked_.reset();
  }

  /// A line that is neither: where a value is due, it is taken for one that was miscopied.
  [[noreturn]] void refuse_line(std::string_view text, std::size_t line) {
    const std::string here = place(where_, line);
    if (std::exchange(asked_, std::nullopt) && text.size() == 2) {
      const char high = is_hex_digit(text[0]) ? text[0] : digit_for(text[0]);
      const char low = is_hex_digit(text[1]) ? text[1] : digit_for(text[1]);
      refuse(here, in_quotes(text) + " is not hex",
             high != 0 && low != 0 ? fmt::format("did you mean {}{}?", high, low)
                                   : std::string("a value is two hex digits"));
    }
    refuse(here, fmt::format("{} is neither a debugger's command nor its answer", in_quotes(text)),
           "a session is o 70 10, then i 71, then the value, each on its line");
  }

  void expect_no_answer(std::size_t line) {
    if (std::exchange(asked_, std::nullopt))
      refuse(place(where_, line), "the value that i 71 showed is missing above this line",
             "put it there, or leave out the i 71");
  }

  Found chip() const { return bytes_.chip({}); }

 private:
  std::string where_;
  Gather bytes_;
  std::optional<std::uint32_t> selected_;
  bool is_read_ = false;                // the byte that is selected
  std::optional<std::uint32_t> asked_;  // the port that was read, until its value comes
};

/// What people write around a session: three words at least that are no hex.
bool is_prose(std::string_view line) {
  std::size_t words = 0;
  for (const std::string& word : split(line, ' '))
    if (word.size() > 1 && is_letter(word[0]) && !all_hex(word)) ++words;
  return words >= 3;
}

/// Words and nothing else, such as "Program terminated normally" in whatever language.
bool is_sentence(std::string_view line) {
  const std::string_view first = line.substr(0, line.find(' '));
  return first.size() < line.size() && !all_hex(first) &&
         std::all_of(line.begin(), line.end(),
                     [](char c) { return is_letter(c) || c == ' ' || c == '.'; });
}

}  // namespace

bool is_prompt_line(std::string_view line) {
  line = trim(line);
  if (line == "-" || is_sentence(line)) return true;
  if (line.size() > 1 && line[0] == '-' && is_letter(line[1])) return true;
  return line.size() > 2 && is_letter(line[0]) && line.substr(1, 2) == ":\\" &&
         line.find('>') != std::string_view::npos;
}

bool is_port_session(const std::vector<SourceLine>& lines) {
  return std::any_of(lines.begin(), lines.end(), [](const SourceLine& line) {
    const auto command = parse_command(line.text);
    return command && selects(*command);
  });
}

Found read_port_session(const std::vector<SourceLine>& lines, const std::string& where) {
  Session session(where);
  ErrorList slips;
  const auto take = [&](const SourceLine& line) {
    const std::string_view text = trim(line.text);
    const std::string_view typed = without_prompt(text);
    if (const auto command = parse_command(text))
      session.command(*command, line.number);
    else if (typed.size() == 2 && all_hex(typed))
      session.answer(typed, line.number);
    else if (is_prompt_line(text) || lower(typed) == "q" || text == "--" || is_prose(text))
      session.expect_no_answer(line.number);
    else
      session.refuse_line(text, line.number);
  };
  for (const SourceLine& line : lines) slips.trying([&] { take(line); });
  if (!lines.empty()) slips.trying([&] { session.expect_no_answer(lines.back().number); });
  slips.refuse_if_any();
  return session.chip();
}

}  // namespace rtcmend
