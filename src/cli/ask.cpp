#include "cli/ask.h"

#include <fmt/format.h>
#include <istream>
#include <ostream>

#include "base/error.h"
#include "base/text.h"
#include "layout/codec.h"
#include "terminal/advice.h"
#include "terminal/columns.h"

namespace rtcmend {

namespace {

// Nobody types more; a pipe that never ends shall not be followed for ever.
constexpr std::size_t longest_interview = 64 * 1024;

/// What only the firmware knows, what follows from other answers or from the clock, and what has no
/// plain answer is not asked.
bool worth_asking(const Field& field) {
  return field.id != "century" && !field.read_only && !field.is_volatile && !field.follows &&
         field.meaning != Meaning::concealed && field.meaning != Meaning::bytes;
}

std::string explanation(const Field& field) {
  std::string text = fmt::format("Field {}, at {}.", field.id, to_prose(addresses(field)));
  if (!field.note.empty()) text += " " + field.note;
  return "  " + hanging(text + " (" + field.source + ")", 2) + "\n";
}

class Interview {
 public:
  Interview(const Layout& layout, std::istream& answers, std::ostream& questions)
      : layout_(layout), answers_(answers), questions_(questions) {
    description_.layout = layout.id;
  }

  Description run() {
    questions_ << "A machine with the layout " << printable(layout_.id) << ": "
               << printable(layout_.title)
               << "\nEnter keeps the value in brackets, ? explains, . keeps all that is left.\n";
    for (const Field& field : layout_.fields)
      if (!finished_ && worth_asking(field)) ask_field(field);
    ask_clock();
    return description_;
  }

 private:
  /// The next line, without its end; the interview is finished when there is none.
  std::string next_line() {
    std::string line;
    for (char letter = 0; answers_.get(letter); line += letter) {
      if (++taken_ > longest_interview)
        refuse("the answers",
               fmt::format("they are longer than {} bytes in all", longest_interview),
               "answer by hand, or write a description instead");
      if (letter == '\n') return line;
    }
    if (line.empty()) finished_ = true;
    return line;
  }

  /// The next answer; nothing when the value in brackets stays.
  std::optional<std::string> answer(const std::string& question) {
    questions_ << question << std::flush;
    const std::string line = next_line();
    const std::string word(trim(line));
    if (word == ".") finished_ = true;
    if (finished_ || word.empty()) return std::nullopt;
    return word;
  }

  void ask_field(const Field& field) {
    const FieldReading now = read_field(field, compose(description_, layout_));
    if (!now.in_use) return;
    const std::string question =
        fmt::format("\n{} ({})\n  {}\n  [{}] > ", printable(field.label), printable(field.id),
                    hanging(legal_values(field), 2), printable(now.text));
    while (const auto word = answer(question)) {
      if (*word == "?")
        questions_ << explanation(field);
      else if (accept(field, *word))
        return;
    }
  }

  bool accept(const Field& field, const std::string& word) {
    Description tried = description_;
    try {
      tried.set.emplace_back(field.id, parse_value(field, word));
      static_cast<void>(compose(tried, layout_));
    } catch (const Error& error) {
      questions_ << "  "
                 << hanging(fmt::format("No: {}; {}", error.message(), try_text(error.advice())), 2)
                 << "\n";
      return false;
    }
    description_ = std::move(tried);
    return true;
  }

  void ask_clock() {
    description_.clock_now = true;
    if (finished_) return;
    const std::string question =
        "\nClock\n  now, or a time such as 2031-05-14T09:30:00\n  [now] > ";
    while (const auto word = answer(question)) {
      if (lower(*word) == "now") return;
      if (const auto time = parse_iso(*word)) {
        description_.clock = time;
        description_.clock_now = false;
        return;
      }
      questions_ << "  No: that is not a date and time between 1980 and 2099.\n";
    }
  }

  const Layout& layout_;
  std::istream& answers_;
  std::ostream& questions_;
  Description description_;
  std::size_t taken_ = 0;  ///< bytes of answers so far
  bool finished_ = false;
};

}  // namespace

Description ask(const Layout& layout, std::istream& answers, std::ostream& questions) {
  return Interview(layout, answers, questions).run();
}

}  // namespace rtcmend
