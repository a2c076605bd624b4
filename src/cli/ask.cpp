#include "cli/ask.h"

#include <fmt/format.h>
#include <functional>
#include <istream>
#include <ostream>

#include "base/error.h"
#include "base/text.h"
#include "cli/finding_out.h"
#include "layout/codec.h"
#include "terminal/advice.h"
#include "terminal/columns.h"

namespace rtcmend {

namespace {

// Nobody types more; a pipe that never ends shall not be followed for ever.
constexpr std::size_t longest_interview = 64 * 1024;

bool is_yes(std::string_view word) {
  return lower(word) == "y" || lower(word) == "yes";
}

bool is_no(std::string_view word) {
  return lower(word) == "n" || lower(word) == "no";
}

/// What only the firmware knows, what follows from other answers or from the clock, and what has no
/// plain answer is not asked.
bool worth_asking(const Field& field) {
  return field.id != "century" && !field.read_only && !field.is_volatile && !field.follows &&
         field.meaning != Meaning::concealed && field.meaning != Meaning::bytes;
}

std::string explanation(const Field& field) {
  std::string text = fmt::format("Field {}, at {}.", field.id, to_prose(addresses(field)));
  if (!field.note.empty()) text += " " + field.note;
  text += " (" + field.source + ")";
  std::string told = "  " + hanging(text, 2) + "\n";
  if (const std::string_view how = how_to_find_out(field); !how.empty())
    told += "  " + hanging(how, 2) + "\n";
  return told;
}

/// What is asked about: a machine that is to be, or an image that is there.
struct Matter {
  std::string heading;
  std::function<Image(const Description&)> image;  ///< with what was answered so far
  bool keeps_clock = false;
};

class Interview {
 public:
  Interview(const Layout& layout, Matter matter, std::istream& answers, std::ostream& questions)
      : layout_(layout), matter_(std::move(matter)), answers_(answers), questions_(questions) {
    description_.layout = layout.id;
    description_.clock_now = !matter_.keeps_clock;
  }

  Description run() {
    questions_
        << matter_.heading << " " << printable(layout_.id) << ": " << printable(layout_.title)
        << "\nEnter keeps the value in brackets, ? explains, < goes back, . keeps all that is "
           "left.\n";
    ask_fields();
    while (!finished_ && !ask_clock()) {
      go_back();
      ask_fields();
    }
    confirm();
    return description_;
  }

 private:
  /// Where a question stood, and what was settled before it.
  struct Asked {
    std::size_t field = 0;
    Description before;
  };

  /// From `next_` to the last field.
  void ask_fields() {
    while (!finished_ && next_ < layout_.fields.size()) {
      const Field& field = layout_.fields[next_];
      if (!worth_asking(field) || !read_now(field).in_use)
        ++next_;
      else if (const Asked here{next_, description_}; ask_field(field)) {
        asked_.push_back(here);
        ++next_;
      } else {
        go_back();
      }
    }
  }

  void go_back() {
    if (asked_.empty()) {
      questions_ << "  This is the first question.\n";
      return;
    }
    next_ = asked_.back().field;
    description_ = std::move(asked_.back().before);
    asked_.pop_back();
  }

  FieldReading read_now(const Field& field) const {
    return read_field(field, matter_.image(description_));
  }

  /// The next line, without its end. Refuses the end of the input: whoever broke off wants nothing
  /// written.
  std::string next_line() {
    std::string line;
    for (char letter = 0; answers_.get(letter); line += letter) {
      if (++taken_ > longest_interview)
        refuse("the answers",
               fmt::format("they are longer than {} bytes in all", longest_interview),
               "answer by hand, or write a description instead");
      if (letter == '\n') return line;
    }
    if (line.empty())
      refuse("the answers", "they ended before the last question, so nothing is written",
             "a line with . keeps all that is left");
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

  /// False: back to the question before.
  bool ask_field(const Field& field) {
    const std::string question =
        fmt::format("\n{} ({})\n  {}\n  [{}] > ", printable(field.label), printable(field.id),
                    hanging(legal_values(field), 2), printable(read_now(field).text));
    while (const auto word = answer(question)) {
      if (*word == "<") return false;
      if (*word == "?")
        questions_ << explanation(field);
      else if (accept(field, *word))
        break;
    }
    return true;
  }

  bool accept(const Field& field, const std::string& word) {
    Description tried = description_;
    try {
      tried.set.emplace_back(field.id, parse_value(field, word));
      static_cast<void>(matter_.image(tried));
    } catch (const Error& error) {
      questions_ << "  "
                 << hanging(fmt::format("No: {}; {}", error.message(), try_text(error.advice())), 2)
                 << "\n";
      return false;
    }
    description_ = std::move(tried);
    return true;
  }

  /// False: back to the question before.
  bool ask_clock() {
    const std::string question =
        fmt::format("\nClock\n  now, or a time such as 2031-05-14T09:30:00\n  [{}] > ", clock());
    while (const auto word = answer(question)) {
      if (*word == "<") return false;
      if (lower(*word) == "now") {
        description_.clock = std::nullopt;
        description_.clock_now = true;
        break;
      }
      if (const auto time = parse_iso(*word)) {
        description_.clock = time;
        description_.clock_now = false;
        break;
      }
      questions_ << "  No: that is not a date and time between 1980 and 2099.\n";
    }
    return true;
  }

  std::string clock() const {
    if (description_.clock) return to_iso(*description_.clock);
    return description_.clock_now ? "now" : "as it is";
  }

  /// What was settled, and consent to it.
  void confirm() {
    questions_ << "\nSettled\n";
    for (const Field& field : layout_.fields) {
      if (!worth_asking(field)) continue;
      if (const FieldReading now = read_now(field); now.in_use)
        questions_ << fmt::format("  {}: {}\n", printable(field.label), printable(now.text));
    }
    questions_ << "  Clock: " << clock() << "\n";
    while (!finished_) {
      const auto word = answer("\nWrite it? yes or no\n  [yes] > ");
      if (!word || is_yes(*word)) return;
      if (is_no(*word))
        refuse("the answers", "they were taken back, so nothing is written", "the questions again");
      questions_ << "  No: yes or no.\n";
    }
  }

  const Layout& layout_;
  Matter matter_;
  std::istream& answers_;
  std::ostream& questions_;
  Description description_;
  std::vector<Asked> asked_;  ///< the way back
  std::size_t next_ = 0;      ///< the field that is asked next
  std::size_t taken_ = 0;     ///< bytes of answers so far
  bool finished_ = false;
};

}  // namespace

Description ask(const Layout& layout, std::istream& answers, std::ostream& questions) {
  const Matter machine{"A machine with the layout", [&](const Description& description) {
                         return compose(description, layout);
                       }};
  return Interview(layout, machine, answers, questions).run();
}

Description ask_changes(const Image& image, const Layout& layout, std::istream& answers,
                        std::ostream& questions) {
  const Matter matter{"A dump with the layout",
                      [&](const Description& description) {
                        std::vector<Setting> settings;
                        for (const auto& [field, value] : description.set)
                          settings.push_back({field, value});
                        return amend(image, layout, settings);
                      },
                      true};
  return Interview(layout, matter, answers, questions).run();
}

}  // namespace rtcmend
