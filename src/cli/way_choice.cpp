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

/// Which floppies the drive reads, asked until it is one that is known; Enter and the end of the
/// input leave it open.
std::optional<DiskFormat> ask_disk(std::istream& answers, std::ostream& questions) {
  constexpr std::string_view formats = "360K, 720K, 1.2M or 1.44M";
  for (std::string answer;;) {
    questions << fmt::format("  Which floppies does its drive read: {}? [1.44M] ", formats)
              << std::flush;
    if (!std::getline(answers, answer) || trim(answer).empty()) return std::nullopt;
    if (const auto format = disk_format_of(trim(answer))) return format;
    questions << fmt::format("  {} is none of them.\n", printable(std::string(trim(answer))));
  }
}

/// The delivery's option where the drive is known, with a blank in front.
std::string disk_option(const Means& means, Way way) {
  return way == Way::boot_floppy && means.disk ? fmt::format(" --disk {}", name(*means.disk)) : "";
}

std::string opening_text(const Opening& one, const Means& means, const std::string& dump,
                         bool best) {
  std::string text = fmt::format("  {}{}\n", name(one.way), best ? ", the best" : "");
  text += "     " + hanging("Cannot: " + one.cannot + ".", 5) + "\n";
  return text + fmt::format("     rtcmend deliver {} --as {}{} -o OUT\n", printable(dump),
                            name(one.way), disk_option(means, one.way));
}

}  // namespace

Means ask_what_is_open(std::istream& answers, std::ostream& questions) {
  questions << "What still works at the old machine? y or n; Enter is no.\n";
  Means means;
  for (const Have one : all_haves()) {
    questions << question(one) << " [n] " << std::flush;
    std::string answer;
    if (!std::getline(answers, answer)) break;
    if (!is_yes(answer)) continue;
    means.have.insert(one);
    if (one == Have::floppy) means.disk = ask_disk(answers, questions);
  }
  questions << "\n";
  return means;
}

std::string openings_text(const Means& means, const std::string& dump) {
  const std::vector<Opening> all = openings(means.have);
  std::string open, closed;
  for (const Opening& one : all) {
    if (one.open)
      open += opening_text(one, means, dump, open.empty());
    else
      closed += fmt::format("  {:<17}{}\n", name(one.way), hanging("needs " + one.needs, 19));
  }
  if (const std::string words = programmer_words(means.have); !words.empty()) {
    open += "  a programmer\n     " + hanging(advice_text(by_hand(words)), 5) + "\n";
    open += fmt::format("     rtcmend convert {} --to intel-hex -o OUT\n", printable(dump));
    open += "  a small board, instead of a programmer\n     rtcmend board wiring\n";
  }
  if (open.empty()) open = "  none of them, as things stand\n";
  std::string text = "Open\n" + open;
  if (!closed.empty()) text += "Closed\n" + closed;
  return text;
}

}  // namespace rtcmend
