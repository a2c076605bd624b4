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

Advice how_to_set(const Field& field) {
  if (field.read_only) return "The firmware keeps this value itself; let the machine start once.";
  return {{fmt::format("Set it to what is fitted; legal: {}", legal_values(field)),
           Act{Act::Kind::set_field, field.id, {}}}};
}

bool escapes(const FieldReading& reading) {
  return reading.field->escape && reading.raw == reading.field->escape->when;
}

Finding illegal(const FieldReading& reading) {
  const Field& field = *reading.field;
  if (field.is_partial)
    return {FindingKind::field_untried, addresses(field),
            fmt::format("{}: {}, as far as the layout knows.", named(field), reading.problem),
            "If the machine stored it, it is good: add the value to the layout.", field.source};
  return {FindingKind::field_illegal, addresses(field),
          fmt::format("{}: {}.", named(field), reading.problem), how_to_set(field), field.source};
}

Finding missing_escape(const FieldReading& reading, const Image& image) {
  const Field& field = *reading.field;
  const Escape& escape = *field.escape;
  return {FindingKind::escape_missing, addresses(field),
          fmt::format("{}: code {} sends the reader to byte {}, which holds {} where only {} to {} "
                      "mean something.",
                      named(field), escape.when, hex_prose(escape.at), image[escape.at],
                      escape.least, escape.most),
          how_to_set(field), field.source};
}

Finding leftover(const FieldReading& reading, const Image& image) {
  const Field& field = *reading.field;
  return {FindingKind::escape_leftover,
          {field.escape->at},
          fmt::format("{} does not use byte {}, yet {} is left there.", named(field),
                      hex_prose(field.escape->at), image[field.escape->at]),
          "Harmless: it may be the maker's own, and every change keeps it.",
          field.source};
}

bool is_diagnostic(const FieldReading& reading) {
  const auto* flag = std::get_if<bool>(&reading.value);
  return flag != nullptr && *flag && reading.field->id.starts_with("diag_");
}

Finding diagnostic(const FieldReading& reading) {
  const Field& field = *reading.field;
  return {
      FindingKind::diagnostic_flag,
      addresses(field),
      fmt::format("At its last start the firmware noted: {} ({}).", field.label, field.id),
      {{"Mend the cause. The firmware judges anew at each start; to clear the flag, set it to no",
        Act{Act::Kind::set_field, field.id, "no"}}},
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

Advice relation_advice(const Field& follower, const Layout& layout, const Value& expected) {
  std::vector<std::string> leaders;
  for (const std::string& id : follower.follows->of)
    leaders.push_back("\"" + layout.need_field(id).label + "\"");
  const std::string set = fmt::format("Set {} to what is fitted", join(leaders, ", "));
  const Act first{Act::Kind::set_field, follower.follows->of.front(), {}};
  if (follower.read_only)
    return {{set + fmt::format("; \"{}\" follows by itself", follower.label), first}};
  const std::string value = to_text(follower, expected);
  return {{set + ", and this follows", first},
          {fmt::format("Or set \"{}\" to {}", follower.label, value),
           Act{Act::Kind::set_field, follower.id, value}}};
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
        {FindingKind::relation_broken, bytes_of_relation(follower, layout),
         fmt::format("{} says {}, but {} would make it {}.", named(follower), reading.text,
                     leaders_text(follower, layout, image), to_text(follower, *expected)),
         relation_advice(follower, layout, *expected), follower.source});
  }
  return findings;
}

}  // namespace rtcmend
