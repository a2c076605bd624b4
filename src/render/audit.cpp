#include "render/audit.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <fmt/format.h>

#include "base/text.h"
#include "render/columns.h"
#include "render/json.h"

namespace rtcmend {

namespace {

constexpr std::size_t standing_width = 11, layout_width = 21;

bool is_plain(std::string_view text) {
  return std::all_of(text.begin(), text.end(),
                     [](char c) { return c >= ' ' && c <= '~' && c != '"' && c != '\\'; });
}

/// Most names are plain, and an archive has many of them.
std::string shown(const std::string& text) {
  return is_plain(text) ? text : printable(text);
}

std::string quoted(const std::string& text) {
  return is_plain(text) ? "\"" + text + "\"" : to_line(Json(text));
}

void add_digits(std::size_t number, std::string& line) {
  std::array<char, 20> digits{};  // as many as 64 bits take
  const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), number).ptr;
  line.append(digits.data(), end);
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

AuditText::AuditText(const FindingNames& names, const Ink& ink)
    : names_(names),
      ink_(ink),
      sound_(ink(Tone::good, padded("sound", standing_width))),
      unsound_(ink(Tone::bad, padded("not sound", standing_width))),
      unclear_(ink(Tone::doubtful, padded("unclear", standing_width))),
      broken_(ink(Tone::bad, padded("no dump", standing_width))) {}

AuditLines::Wording AuditText::wording(const Verdict& verdict) const {
  const bool clear = verdict.layout != nullptr;
  const std::string& standing = !clear                                         ? unclear_
                                : verdict.standing == Verdict::Standing::sound ? sound_
                                                                               : unsound_;
  Wording wording{standing + padded(clear ? verdict.layout->id : "-", layout_width), {}};
  const char* mark = ": ";
  for (const std::string_view id : names_.names(verdict.findings)) {
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

AuditLines::Wording AuditJson::wording(const Verdict& verdict) const {
  std::string text;
  if (verdict.layout == nullptr)
    text += ",\"layout\":null,\"sound\":null";
  else
    text += ",\"layout\":" + quoted(verdict.layout->id) +
            ",\"sound\":" + (verdict.standing == Verdict::Standing::sound ? "true" : "false");
  text += ",\"findings\":[";
  const char* mark = "\"";
  for (const std::string_view id : names_.names(verdict.findings)) {
    text += mark;
    text += id;
    text += '"';
    mark = ",\"";
  }
  return {{}, text += "],\"error\":null}\n"};
}

std::string AuditJson::name(const AuditSubject& subject) const {
  std::string text = "{\"path\":" + quoted(subject.path);
  if (!subject.member.empty()) text += ",\"member\":" + quoted(subject.member);
  return text;
}

void AuditJson::add_number(std::size_t number, std::string& line) const {
  line += ",\"number\":";
  add_digits(number, line);
}

std::string AuditJson::broken(const AuditSubject& subject, const std::string& trouble) const {
  std::string text = name(subject);
  if (subject.number) add_number(*subject.number, text);
  return text + ",\"layout\":null,\"sound\":null,\"findings\":[],\"error\":" + quoted(trouble) +
         "}\n";
}

std::string AuditJson::summary(const AuditTally& tally, bool complete) const {
  Json layouts = Json::object(), findings = Json::object();
  for (const auto& [id, count] : tally.by_layout)
    layouts[id] = Json{{"sound", count.sound}, {"unsound", count.unsound}};
  for (const auto& [id, count] : tally.by_finding) findings[id] = count;
  const Json summary{{"complete", complete},          {"dumps", tally.all()},
                     {"sound", tally.sound},          {"unsound", tally.unsound},
                     {"unclear", tally.unclear},      {"broken", tally.broken},
                     {"layouts", std::move(layouts)}, {"findings", std::move(findings)}};
  return to_line(Json{{"summary", summary}}) + "\n";
}

}  // namespace rtcmend
