#include "terminal/audit.h"

#include <algorithm>
#include <fmt/format.h>

#include "audit/worth.h"
#include "base/text.h"
#include "terminal/columns.h"
#include "terminal/heading.h"
#include "terminal/shorten.h"

namespace rtcmend {

namespace {

// The columns of a line, each with the blank behind it; the name has the rest.
constexpr std::size_t line_width = 7, worth_width = 9, reason_width = longest_reason + 1,
                      layout_width = 16;
constexpr std::size_t name_width =
    page_width - line_width - worth_width - reason_width - layout_width;
constexpr std::size_t number_room = 9;  // " [999999]"

/// Most names are plain, and an archive has many of them.
std::string shown(const std::string& text) {
  return is_plain(text) ? text : printable(text);
}

std::string padded(std::string_view text, std::size_t width) {
  std::string wide(text);
  wide.resize(std::max(width, wide.size() + 1), ' ');
  return wide;
}

std::string counts_text(const AuditTally& tally) {
  std::vector<std::string> parts;
  const auto add = [&](std::size_t count, const char* what) {
    if (count != 0) parts.push_back(fmt::format("{} {}", count, what));
  };
  add(tally.worth.proven, "proven");
  add(tally.worth.unproven, "unproven");
  add(tally.worth.broken, "broken or misread");
  return parts.empty() ? "nothing to judge" : join(parts, ", ");
}

std::string files_text(std::size_t count) {
  return count == 1 ? "1 file holds no dump, or could not be read\n"
                    : fmt::format("{} files hold no dump, or could not be read\n", count);
}

std::string copies_text(const AuditEnd& end) {
  std::string text;
  if (const std::size_t count = end.tally.copies; count != 0)
    text += fmt::format("{} {} the settings of one before: = is followed by its line\n",
                        counted(count, "dump"), count == 1 ? "has" : "have");
  if (end.copies_untold)
    text += "There were too many different dumps to remember all: copies may go untold.\n";
  return text;
}

std::string aside_text(const AuditAside& aside) {
  std::vector<std::string> passed;
  if (aside.leftovers != 0)
    passed.push_back(counted(aside.leftovers, "leftover") + " of file managers and archivers");
  if (aside.links_passed_over != 0)
    passed.push_back(counted(aside.links_passed_over, "link") + " inside folders");
  std::string text;
  if (!passed.empty()) text += "Passed over: " + join(passed, ", ") + "\n";
  for (const auto& [path, target] : aside.followed)
    text += fmt::format("Followed: {} is a link to {}\n", printable(path), printable(target));
  return text;
}

}  // namespace

AuditText::AuditText(const Ink& ink, Width width)
    : ink_(ink),
      width_(width),
      proven_(ink(Tone::good, padded("proven", worth_width))),
      unproven_(ink(Tone::doubtful, padded("unproven", worth_width))),
      broken_(ink(Tone::bad, padded("broken", worth_width))),
      no_dump_(ink(Tone::bad, padded("no dump", worth_width))) {}

std::string AuditText::heading() const {
  return fmt::format("{:>{}} {}{}{}dump\n", "line", line_width - 1, padded("worth", worth_width),
                     padded("because", reason_width), padded("layout", layout_width));
}

std::string AuditText::id_of(const Layout& layout, std::size_t most) const {
  return width_ == Width::whole ? layout.id : shortened(layout.id, most);
}

AuditLines::Wording AuditText::wording(const Verdict& verdict) const {
  const Worth worth = worth_of(verdict);
  Wording wording{worth == Worth::proven     ? proven_
                  : worth == Worth::unproven ? unproven_
                                             : broken_,
                  {}};
  wording.before += padded(reason_of(verdict), reason_width);
  wording.before +=
      padded(verdict.is_clear() ? id_of(*verdict.layout, layout_width - 1) : "-", layout_width);
  if (width_ == Width::page) return wording;
  const char* mark = ": ";
  for (const std::string_view id : ids_of(verdict.findings)) {
    wording.behind += mark;
    wording.behind += id;
    mark = ", ";
  }
  return wording;
}

std::string AuditText::name(const AuditSubject& subject) const {
  const std::string whole = subject.member.empty()
                                ? shown(subject.path)
                                : shown(subject.path) + ": " + shown(subject.member);
  if (width_ == Width::whole) return whole;
  return shortened(whole, subject.number ? name_width - number_room : name_width);
}

void AuditText::add_number(std::size_t number, std::string& line) const {
  line += " [";
  add_digits(number, line);
  line += ']';
}

std::string AuditText::no_dump(const AuditSubject& subject, const std::string& trouble) const {
  std::string text = name(subject);
  if (subject.number) add_number(*subject.number, text);
  text += ": ";
  const std::size_t room = page_width - line_width - worth_width - columns_of(text);
  text += width_ == Width::whole ? shown(trouble) : cut_short(shown(trouble), room);
  return no_dump_ + text;
}

void AuditText::open(std::size_t line, std::string& text) const {
  std::string digits;
  add_digits(line, digits);
  text.append(line_width - 1 - std::min(line_width - 1, digits.size()), ' ');
  text += digits;
  text += ' ';
}

void AuditText::close(std::optional<std::size_t> copy_of, std::size_t name_at,
                      std::string& text) const {
  if (copy_of) {
    std::string mark = " =";
    add_digits(*copy_of, mark);
    if (width_ == Width::page) {
      const std::string name = shortened(text.substr(name_at), name_width - mark.size());
      text.resize(name_at);
      text += name;
    }
    text += mark;
  }
  text += '\n';
}

std::string AuditText::summary(const AuditEnd& end) const {
  const AuditTally& tally = end.tally;
  std::string text = "\n";
  if (!end.complete)
    text +=
        ink_(Tone::bad, "Stopped before the end: this is about what was judged until then.") + "\n";
  if (end.named) text += layout_mark(*end.named);
  text += fmt::format("{}: {}\n", counted(tally.dumps(), "dump"), counts_text(tally));
  if (tally.dumps() != 0)
    text += fmt::format("{} of them sound: settings proven, clock right, no fault\n", tally.sound);
  if (tally.no_dump != 0) text += files_text(tally.no_dump);
  text += copies_text(end);
  text += aside_text(end.aside);
  constexpr std::size_t id_width = 44;
  if (!tally.by_layout.empty())
    text += fmt::format("\n{:<{}}   proven unproven   broken\n", "Layouts", id_width + 2);
  for (const auto& [id, count] : tally.by_layout)
    text += fmt::format("  {:<{}} {:>8} {:>8} {:>8}\n", shortened(id, id_width), id_width,
                        count.proven, count.unproven, count.broken);
  if (!tally.by_finding.empty()) text += "\nFindings             dumps\n";
  for (const auto& [id, count] : tally.by_finding)
    text += fmt::format("  {:<20} {:>10}\n", id, count);
  return text;
}

}  // namespace rtcmend
