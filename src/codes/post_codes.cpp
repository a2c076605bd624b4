#include "codes/post_codes.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "base/json.h"
#include "chip/cautions.h"
#include "layout/library.h"

namespace rtcmend {

namespace {

using nlohmann::json;

Symptom read_symptom(const json& entry) {
  return {entry.value("finding", ""), entry.value("field", ""), entry.value("flag", "")};
}

Cause read_cause(const json& entry) {
  Cause cause{entry["text"], {}};
  for (const json& symptom : entry.value("symptoms", json::array()))
    cause.symptoms.push_back(read_symptom(symptom));
  return cause;
}

PostCode read_code(const json& entry) {
  PostCode code;
  code.code = entry["code"];
  code.means = entry["means"];
  code.chip = entry["from_the_chip"];
  code.look_at = entry.value("look_at", "");
  code.only_in = entry.value("class", "");
  for (const json& cause : entry["causes"]) code.causes.push_back(read_cause(cause));
  code.remedy = entry["do"].get<std::string>();
  if (entry.value("by_hand", false)) code.remedy = by_hand(code.remedy);
  code.turn = entry["turn"];
  code.first_because = entry["first_because"];
  code.brings = entry.value("brings", std::vector<std::string>{});
  code.source = entry["source"];
  return code;
}

/// The bytes that a finding about one field names: its own, and for a broken relation those of the
/// fields that it follows.
Addresses bytes_spoken_of(const Field& field, const Layout& layout, bool with_leaders) {
  Addresses at = addresses(field);
  if (with_leaders && field.follows)
    for (const std::string& id : field.follows->of) {
      const Addresses more = addresses(layout.need_field(id));
      at.insert(at.end(), more.begin(), more.end());
    }
  std::sort(at.begin(), at.end());
  at.erase(std::unique(at.begin(), at.end()), at.end());
  return at;
}

bool is_about(const Finding& finding, const std::string& id, const Layout& layout) {
  const Field* field = layout.field(id);
  return field != nullptr &&
         finding.at ==
             bytes_spoken_of(*field, layout, finding.kind == FindingKind::relation_broken);
}

bool flag_is_set(const std::string& id, const Examination& examination) {
  return std::any_of(
      examination.fields.begin(), examination.fields.end(), [&](const FieldReading& reading) {
        return reading.known && reading.field->id == id && reading.value == Value{true};
      });
}

bool is_seen(const Symptom& symptom, const Examination& examination, const Layout& layout) {
  if (!symptom.flag.empty()) return flag_is_set(symptom.flag, examination);
  return std::any_of(examination.findings.begin(), examination.findings.end(),
                     [&](const Finding& finding) {
                       return finding.id() == symptom.finding &&
                              (symptom.field.empty() || is_about(finding, symptom.field, layout));
                     });
}

}  // namespace

const std::vector<PostCode>& post_codes() {
  static const std::vector<PostCode> codes = [] {
    std::vector<PostCode> read;
    const json file = parse_json(embedded_text("post-codes"), "post-codes");
    for (const json& entry : file["codes"]) read.push_back(read_code(entry));
    return read;
  }();
  return codes;
}

const PostCode* post_code(std::string_view wanted) {
  for (const PostCode& code : post_codes())
    if (code.code == wanted) return &code;
  return nullptr;
}

std::vector<std::string> symptoms_seen(const Cause& cause, const Examination& examination,
                                       const Layout& layout) {
  std::vector<std::string> ids;
  if (examination.standing.dump == Standing::Dump::misread) return ids;
  for (const Symptom& symptom : cause.symptoms) {
    if (!is_seen(symptom, examination, layout)) continue;
    const std::string id = symptom.flag.empty() ? symptom.finding : "diagnostic-flag";
    if (std::find(ids.begin(), ids.end(), id) == ids.end()) ids.push_back(id);
  }
  return ids;
}

}  // namespace rtcmend
