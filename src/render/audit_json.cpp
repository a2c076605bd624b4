#include "render/audit_json.h"

#include "audit/worth.h"
#include "render/json.h"

namespace rtcmend {

namespace {

std::string in_quotes(std::string_view text) {
  return is_plain(text) ? "\"" + std::string(text) + "\"" : to_line(Json(text));
}

Json count_json(const AuditTally::Count& count) {
  return {{"proven", count.proven}, {"unproven", count.unproven}, {"broken", count.broken}};
}

}  // namespace

AuditLines::Wording AuditJson::wording(const Verdict& verdict) const {
  std::string text;
  if (verdict.layout == nullptr)
    text += ",\"layout\":null,\"sound\":null,\"standing\":null";
  else
    text += ",\"layout\":" + in_quotes(verdict.layout->id) +
            ",\"sound\":" + (verdict.is_sound() ? "true" : "false") +
            ",\"standing\":" + to_line(standing_json(standing_of(verdict.findings)));
  text += ",\"worth\":" + in_quotes(rtcmend::name(worth_of(verdict))) +
          ",\"reason\":" + in_quotes(reason_of(verdict)) + ",\"findings\":[";
  const char* mark = "\"";
  for (const std::string_view id : ids_of(verdict.findings)) {
    text += mark;
    text += id;
    text += '"';
    mark = ",\"";
  }
  return {{}, text += "],\"error\":null"};
}

std::string AuditJson::name(const AuditSubject& subject) const {
  std::string text = ",\"path\":" + in_quotes(subject.path);
  if (!subject.member.empty()) text += ",\"member\":" + in_quotes(subject.member);
  return text;
}

void AuditJson::add_number(std::size_t number, std::string& line) const {
  line += ",\"number\":";
  add_digits(number, line);
}

std::string AuditJson::no_dump(const AuditSubject& subject, const std::string& trouble) const {
  std::string text = name(subject);
  if (subject.number) add_number(*subject.number, text);
  return text +
         ",\"layout\":null,\"sound\":null,\"standing\":null,\"worth\":null,\"reason\":null,"
         "\"findings\":[],\"error\":" +
         in_quotes(trouble);
}

void AuditJson::open(std::size_t line, std::string& text) const {
  text += "{\"line\":";
  add_digits(line, text);
}

void AuditJson::close(std::optional<std::size_t> copy_of, std::size_t /*name_at*/,
                      std::string& text) const {
  text += ",\"copy_of\":";
  if (copy_of)
    add_digits(*copy_of, text);
  else
    text += "null";
  text += "}\n";
}

std::string AuditJson::summary(const AuditEnd& end) const {
  const AuditTally& tally = end.tally;
  Json layouts = Json::object(), findings = Json::object(), followed = Json::array();
  for (const auto& [id, count] : tally.by_layout) layouts[id] = count_json(count);
  for (const auto& [id, count] : tally.by_finding) findings[id] = count;
  for (const auto& [path, target] : end.aside.followed)
    followed.push_back({{"path", path}, {"to", target}});
  Json summary{{"complete", end.complete}, {"dumps", tally.dumps()}, {"sound", tally.sound}};
  summary.update(count_json(tally.worth));
  summary.update(Json{{"no_dump", tally.no_dump},
                      {"copies", tally.copies},
                      {"copies_untold", end.copies_untold},
                      {"leftovers", end.aside.leftovers},
                      {"links_passed_over", end.aside.links_passed_over},
                      {"links_followed", std::move(followed)},
                      {"layouts", std::move(layouts)},
                      {"findings", std::move(findings)}});
  add_layout(end.named.get(), summary);
  return to_line(Json{{"summary", std::move(summary)}}) + "\n";
}

}  // namespace rtcmend
