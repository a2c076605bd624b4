#include "render/audit_csv.h"

#include <fmt/format.h>

#include "audit/worth.h"
#include "base/text.h"
#include "render/words.h"

namespace rtcmend {

namespace {

/// A cell of text from outside.
std::string cell(const std::string& text) {
  const std::string safe = is_plain(text) ? text : printable(text);
  std::string quoted = "\"";
  if (!safe.empty() && std::string_view("=+-@").find(safe.front()) != std::string_view::npos)
    quoted += '\'';
  for (const char c : safe) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted += '"';
}

}  // namespace

std::string AuditCsv::heading() const {
  return "line,worth,reason,layout,sound,dump,settings,clock,findings,error,path,number,copy_"
         "of\r\n";
}

AuditLines::Wording AuditCsv::wording(const Verdict& verdict) const {
  std::string text = fmt::format(",{},{},", rtcmend::name(worth_of(verdict)), reason_of(verdict));
  if (verdict.is_clear()) {
    const Standing standing = standing_of(verdict.findings);
    text += fmt::format("{},{},{},{},{},", cell(verdict.layout->id + from_a_file(*verdict.layout)),
                        verdict.is_sound() ? "yes" : "no", rtcmend::name(standing.dump),
                        rtcmend::name(standing.settings), rtcmend::name(standing.clock));
  } else {
    text += ",,,,,";
  }
  const auto ids = ids_of(verdict.findings);
  return {text + join({ids.begin(), ids.end()}, " ") + ",,", {}};
}

std::string AuditCsv::name(const AuditSubject& subject) const {
  return cell(subject.member.empty() ? subject.path : subject.path + ": " + subject.member) + ',';
}

void AuditCsv::add_number(std::size_t number, std::string& line) const {
  add_digits(number, line);
}

std::string AuditCsv::no_dump(const AuditSubject& subject, const std::string& trouble) const {
  std::string text = ",no dump,,,,,,,," + cell(trouble) + ',' + name(subject);
  if (subject.number) add_number(*subject.number, text);
  return text;
}

void AuditCsv::open(std::size_t line, std::string& text) const {
  add_digits(line, text);
}

void AuditCsv::close(std::optional<std::size_t> copy_of, std::size_t /*name_at*/,
                     std::string& text) const {
  text += ',';
  if (copy_of) add_digits(*copy_of, text);
  text += "\r\n";
}

std::string AuditCsv::summary(const AuditEnd& /*end*/) const {
  return {};
}

}  // namespace rtcmend
