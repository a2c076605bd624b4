#include "cli/way_choice.h"

#include <fmt/format.h>
#include <istream>
#include <ostream>

#include "base/text.h"
#include "chip/cautions.h"
#include "terminal/advice.h"
#include "terminal/columns.h"

namespace rtcmend {

namespace {

bool is_yes(std::string_view answer) {
  answer = trim(answer);
  return !answer.empty() && (answer.front() == 'y' || answer.front() == 'Y');
}

std::string opening_text(const Opening& one, const std::string& dump, bool best) {
  std::string text = fmt::format("  {}{}\n", name(one.way), best ? ", the best" : "");
  text += "     " + hanging("Cannot: " + one.cannot + ".", 5) + "\n";
  return text +
         fmt::format("     rtcmend deliver {} --as {} -o OUT\n", printable(dump), name(one.way));
}

}  // namespace

std::set<Have> ask_what_is_open(std::istream& answers, std::ostream& questions) {
  questions << "What still works at the old machine? y or n; Enter is no.\n";
  std::set<Have> have;
  for (const Have one : all_haves()) {
    questions << question(one) << " [n] " << std::flush;
    std::string answer;
    if (!std::getline(answers, answer)) break;
    if (is_yes(answer)) have.insert(one);
  }
  questions << "\n";
  return have;
}

std::string openings_text(const std::set<Have>& have, const std::string& dump) {
  const std::vector<Opening> all = openings(have);
  std::string open, closed;
  for (const Opening& one : all) {
    if (one.open)
      open += opening_text(one, dump, open.empty());
    else
      closed += fmt::format("  {:<17}{}\n", name(one.way), hanging("needs " + one.needs, 19));
  }
  if (const std::string words = programmer_words(have); !words.empty()) {
    open += "  a programmer\n     " + hanging(advice_text(by_hand(words)), 5) + "\n";
    open += fmt::format("     rtcmend convert {} --to intel-hex -o OUT\n", printable(dump));
  }
  if (open.empty()) open = "  none of them, as things stand\n";
  std::string text = "Open\n" + open;
  if (!closed.empty()) text += "Closed\n" + closed;
  return text;
}

}  // namespace rtcmend
