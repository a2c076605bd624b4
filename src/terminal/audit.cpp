#include "terminal/audit.h"

#include <fmt/format.h>

#include "base/text.h"
#include "terminal/columns.h"

namespace rtcmend {

namespace {

constexpr std::size_t standing_width = 11, layout_width = 21;

/// Most names are plain, and an archive has many of them.
std::string shown(const std::string& text) {
  return is_plain(text) ? text : printable(text);
}

std::string padded(std::string_view text, std::size_t width) {
  std::string wide(text);
  wide.resize(std::max(width, wide.size() + 1), ' ');
  return wide;
}

std::string numbers_text(const AuditTally& tally) {
  std::vector<std::string> parts;
  const auto add = [&](std::size_t count, const char* what) {
    if (count != 0) parts.push_back(fmt::format("{} {}", count, what));
  };
  add(tally.sound, "sound");
  add(tally.unsound, "not sound");
  add(tally.unclear, "unclear");
  add(tally.broken, "no dump");
  return parts.empty() ? "nothing to judge" : join(parts, ", ");
}

}  // namespace

AuditText::AuditText(const Ink& ink)
    : ink_(ink),
      sound_(ink(Tone::good, padded("sound", standing_width))),
      unsound_(ink(Tone::bad, padded("not sound", standing_width))),
      unclear_(ink(Tone::doubtful, padded("unclear", standing_width))),
      broken_(ink(Tone::bad, padded("no dump", standing_width))) {}

AuditLines::Wording AuditText::wording(const Verdict& verdict) const {
  const bool clear = verdict.is_clear();
  const std::string& standing = !clear ? unclear_ : verdict.is_sound() ? sound_ : unsound_;
  Wording wording{standing + padded(clear ? verdict.layout->id : "-", layout_width), {}};
  const char* mark = ": ";
  for (const std::string_view id : ids_of(verdict.findings)) {
    wording.behind += mark;
    wording.behind += id;
    mark = ", ";
  }
  wording.behind += '\n';
  return wording;
}

std::string AuditText::name(const AuditSubject& subject) const {
  if (subject.member.empty()) return shown(subject.path);
  return shown(subject.path) + ": " + shown(subject.member);
}

void AuditText::add_number(std::size_t number, std::string& line) const {
  line += " [";
  add_digits(number, line);
  line += ']';
}

std::string AuditText::broken(const AuditSubject& subject, const std::string& trouble) const {
  std::string text = broken_ + padded("-", layout_width) + name(subject);
  if (subject.number) add_number(*subject.number, text);
  return text + ": " + shown(trouble) + "\n";
}

std::string AuditText::summary(const AuditTally& tally, bool complete) const {
  std::string text = "\n";
  if (!complete)
    text +=
        ink_(Tone::bad, "Stopped before the end: this is about what was judged until then.") + "\n";
  text += fmt::format("{}: {}\n", counted(tally.all(), "dump"), numbers_text(tally));
  if (!tally.by_layout.empty()) text += "\nLayouts              sound    not sound\n";
  for (const auto& [id, count] : tally.by_layout)
    text += fmt::format("  {:<20} {:>10} {:>10}\n", id, count.sound, count.unsound);
  if (!tally.by_finding.empty()) text += "\nFindings             dumps\n";
  for (const auto& [id, count] : tally.by_finding)
    text += fmt::format("  {:<20} {:>10}\n", id, count);
  return text;
}

}  // namespace rtcmend
