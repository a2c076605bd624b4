#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "judge/findings.h"
#include "judge/relations.h"

namespace rtcmend {

namespace {

std::string named(const Field& field) {
  return fmt::format("{} ({})", field.label, field.id);
}

std::string how_to_set(const Field& field) {
  if (field.read_only) return "The firmware keeps this value itself; let the machine start once.";
  return fmt::format("Set it: \"rtcmend amend --set {}=VALUE\"; legal: {}.", field.id,
                     legal_values(field));
}

bool escapes(const FieldReading& reading) {
  return reading.field->escape && reading.raw == reading.field->escape->when;
}

Finding illegal(const FieldReading& reading) {
  const Field& field = *reading.field;
  return {"field-illegal",   Severity::fault,
          addresses(field),  fmt::format("{}: {}.", named(field), reading.problem),
          how_to_set(field), field.source};
}

Finding missing_escape(const FieldReading& reading, const Image& image) {
  const Field& field = *reading.field;
  const Escape& escape = *field.escape;
  return {"escape-missing",
          Severity::fault,
          addresses(field),
          fmt::format("{}: code {} sends the reader to byte {}, which holds {} where only {} to {} "
                      "mean something.",
                      named(field), escape.when, hex_prose(escape.at), image[escape.at],
                      escape.least, escape.most),
          how_to_set(field),
          field.source};
}

Finding leftover(const FieldReading& reading, const Image& image) {
  const Field& field = *reading.field;
  return {"escape-leftover",
          Severity::note,
          {field.escape->at},
          fmt::format("{} does not use byte {}, yet {} is left there.", named(field),
                      hex_prose(field.escape->at), image[field.escape->at]),
          fmt::format("Harmless. Setting {} clears it.", field.id),
          field.source};
}

bool is_diagnostic(const FieldReading& reading) {
  const auto* flag = std::get_if<bool>(&reading.value);
  return flag != nullptr && *flag && reading.field->id.starts_with("diag_");
}

Finding diagnostic(const FieldReading& reading) {
  const Field& field = *reading.field;
  return {"diagnostic-flag",
          Severity::doubt,
          addresses(field),
          fmt::format("At its last start the firmware noted: {} ({}).", field.label, field.id),
          fmt::format("Mend the cause. The firmware judges anew at each start; \"--set {}=no\" "
                      "clears the flag.",
                      field.id),
          field.source};
}

}  // namespace

std::vector<Finding> field_findings(const std::vector<FieldReading>& readings, const Image& image) {
  std::vector<Finding> findings;
  for (const FieldReading& reading : readings) {
    if (!reading.known || !reading.in_use || reading.field->id == "century") continue;
    const auto& escape = reading.field->escape;
    if (!reading.legal)
      findings.push_back(escapes(reading) ? missing_escape(reading, image) : illegal(reading));
    if (escape && !escapes(reading) && image.at(escape->at).value_or(0) != 0)
      findings.push_back(leftover(reading, image));
    if (is_diagnostic(reading)) findings.push_back(diagnostic(reading));
  }
  return findings;
}

namespace {

/// "First floppy drive (1.44M) and Second floppy drive (none)".
std::string leaders_text(const Field& follower, const Layout& layout, const Image& image) {
  std::vector<std::string> parts;
  for (const std::string& id : follower.follows->of) {
    const Field& leader = layout.need_field(id);
    parts.push_back(fmt::format("{} ({})", leader.label, read_field(leader, image).text));
  }
  return join(parts, " and ");
}

Addresses bytes_of_relation(const Field& follower, const Layout& layout) {
  Addresses at = addresses(follower);
  for (const std::string& id : follower.follows->of) {
    const Addresses more = addresses(layout.need_field(id));
    at.insert(at.end(), more.begin(), more.end());
  }
  std::sort(at.begin(), at.end());
  at.erase(std::unique(at.begin(), at.end()), at.end());
  return at;
}

std::string relation_remedy(const Field& follower, const Value& expected) {
  const std::string leaders = join(follower.follows->of, ", ");
  if (follower.read_only)
    return fmt::format("Set {} to what is fitted; {} follows by itself.", leaders, follower.id);
  return fmt::format("Set {} to what is fitted, and this follows; or \"--set {}={}\".", leaders,
                     follower.id, to_text(follower, expected));
}

}  // namespace

std::vector<Finding> relation_findings(const std::vector<FieldReading>& readings,
                                       const Layout& layout, const Image& image) {
  std::vector<Finding> findings;
  for (const FieldReading& reading : readings) {
    if (!breaks_relation(reading, layout, image)) continue;
    const Field& follower = *reading.field;
    const auto expected = expected_value(follower, layout, image);
    findings.push_back(
        {"relation-broken", Severity::doubt, bytes_of_relation(follower, layout),
         fmt::format("{} says {}, but {} would make it {}.", named(follower), reading.text,
                     leaders_text(follower, layout, image), to_text(follower, *expected)),
         relation_remedy(follower, *expected), follower.source});
  }
  return findings;
}

}  // namespace rtcmend
