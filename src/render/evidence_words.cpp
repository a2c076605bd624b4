#include "render/evidence_words.h"

#include <fmt/format.h>

#include "base/text.h"
#include "render/list_json.h"

namespace rtcmend {

Json evidence_json(const LayoutEvidence& evidence) {
  Json json;
  json["dumps"] = evidence.dumps;
  json["different"] = evidence.different;
  json["checks"] = list_json(evidence.checks, [](const LayoutEvidence::OfCheck& check) {
    return Json{{"id", check.id}, {"held", check.held}, {"failed", check.failed}};
  });
  json["fields"] = list_json(evidence.fields, [](const LayoutEvidence::OfField& field) {
    return Json{
        {"id", field.id}, {"legal", field.legal}, {"odd", field.odd}, {"values", field.values}};
  });
  json["never_changed"] = evidence.never_changed;
  return json;
}

std::string evidence_note(const LayoutEvidence& evidence, const DateTime& when) {
  std::vector<std::string> checks, odd;
  for (const auto& check : evidence.checks)
    checks.push_back(check.failed == 0 ? fmt::format("{} in {}", check.id, check.held)
                                       : fmt::format("{} in {}, and not in {}", check.id,
                                                     check.held, check.failed));
  for (const auto& field : evidence.fields)
    if (field.odd > 0) odd.push_back(fmt::format("{} in {}", field.id, field.odd));
  return fmt::format("Held against {} dumps ({} different) on {}: {}; {} fields, {}.",
                     evidence.dumps, evidence.different, to_iso(when).substr(0, 10),
                     checks.empty() ? "no checks" : join(checks, "; "), evidence.fields.size(),
                     odd.empty() ? "none with a value that has no meaning"
                                 : "with a value that has no meaning: " + join(odd, ", "));
}

}  // namespace rtcmend
