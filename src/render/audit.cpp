#include "render/audit.h"

#include <algorithm>
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

std::string padded(std::string_view text, std::size_t width) {
  std::string wide(text);
  wide.resize(std::max(width, wide.size() + 1), ' ');
  return wide;
}

std::string name_of(const AuditSubject& subject) {
  std::string name = shown(subject.path);
  if (!subject.member.empty()) name += ": " + shown(subject.member);
  if (subject.number) name += " [" + std::to_string(*subject.number) + "]";
  return name;
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

std::string AuditText::line(const std::string& standing, std::string_view layout,
                            const AuditSubject& subject) const {
  return standing + padded(layout, layout_width) + name_of(subject);
}

std::string AuditText::judged(const AuditSubject& subject, const Verdict& verdict) const {
  const bool clear = verdict.layout != nullptr;
  std::string text = line(!clear                                         ? unclear_
                          : verdict.standing == Verdict::Standing::sound ? sound_
                                                                         : unsound_,
                          clear ? std::string_view(verdict.layout->id) : "-", subject);
  const char* mark = ": ";
  for (const std::string_view id : names_.names(verdict.findings)) {
    text += mark;
    text += id;
    mark = ", ";
  }
  return text += '\n';
}

std::string AuditText::broken(const AuditSubject& subject, const std::string& trouble) const {
  return line(broken_, "-", subject) + ": " + shown(trouble) + "\n";
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

namespace {

std::string opened_object(const AuditSubject& subject) {
  std::string text = "{\"path\":" + quoted(subject.path);
  if (!subject.member.empty()) text += ",\"member\":" + quoted(subject.member);
  if (subject.number) text += ",\"number\":" + std::to_string(*subject.number);
  return text;
}

}  // namespace

std::string AuditJson::judged(const AuditSubject& subject, const Verdict& verdict) const {
  std::string text = opened_object(subject);
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
  return text += "],\"error\":null}\n";
}

std::string AuditJson::broken(const AuditSubject& subject, const std::string& trouble) const {
  return opened_object(subject) +
         ",\"layout\":null,\"sound\":null,\"findings\":[],\"error\":" + quoted(trouble) + "}\n";
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
