#include "render/audit_json.h"

#include "render/json.h"

namespace rtcmend {

namespace {

std::string quoted(const std::string& text) {
  return is_plain(text) ? "\"" + text + "\"" : to_line(Json(text));
}

}  // namespace

AuditLines::Wording AuditJson::wording(const Verdict& verdict) const {
  std::string text;
  if (verdict.layout == nullptr)
    text += ",\"layout\":null,\"sound\":null,\"standing\":null";
  else
    text += ",\"layout\":" + quoted(verdict.layout->id) +
            ",\"sound\":" + (verdict.is_sound() ? "true" : "false") +
            ",\"standing\":" + to_line(standing_json(standing_of(verdict.findings)));
  text += ",\"findings\":[";
  const char* mark = "\"";
  for (const std::string_view id : ids_of(verdict.findings)) {
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
  return text + ",\"layout\":null,\"sound\":null,\"standing\":null,\"findings\":[],\"error\":" +
         quoted(trouble) + "}\n";
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
