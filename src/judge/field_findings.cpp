#include <algorithm>
#include <fmt/format.h>
#include <optional>
#include <string_view>
#include <utility>

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

/// "disk_0_" for what makes up the size of a disk entered by hand; empty for other fields.
std::string_view disk_of(const Field& field) {
  constexpr std::size_t prefix = std::string_view("disk_0_").size();
  const std::string_view id = field.id;
  if (field.when.empty() || !id.starts_with("disk_") || id.size() < prefix) return {};
  const std::string_view what = id.substr(prefix);
  return what == "cylinders" || what == "heads" || what == "sectors" ? id.substr(0, prefix)
                                                                     : std::string_view();
}

bool is_missing_size(const FieldReading& reading) {
  return reading.raw == 0 && !disk_of(*reading.field).empty();
}

/// One finding for all that a disk lacks; the first of its fields speaks for them.
std::optional<Finding> not_entered(const FieldReading& first,
                                   const std::vector<FieldReading>& readings) {
  const std::string_view disk = disk_of(*first.field);
  Addresses at;
  std::vector<std::string> lacking;
  for (const FieldReading& reading : readings) {
    if (!reading.known || !reading.in_use || reading.legal || !is_missing_size(reading)) continue;
    if (disk_of(*reading.field) != disk) continue;
    if (lacking.empty() && reading.field != first.field) return std::nullopt;  // told already
    const Addresses own = addresses(*reading.field);
    at.insert(at.end(), own.begin(), own.end());
    lacking.push_back(reading.field->id);
  }
  std::sort(at.begin(), at.end());
  at.erase(std::unique(at.begin(), at.end()), at.end());
  return Finding{FindingKind::disk_not_entered,
                 at,
                 fmt::format("The disk's type says that it was entered by hand, yet {} {} 0: "
                             "nothing is entered.",
                             join(lacking, ", "), lacking.size() == 1 ? "is" : "are"),
                 {{"Enter the disk, or set the type that is fitted",
                   Act{Act::Kind::set_field, std::string(lacking.front()), {}}}},
                 first.field->source};
}

Finding illegal(const FieldReading& reading, bool vouched) {
  const Field& field = *reading.field;
  const FindingKind kind = kind_of_illegal(reading, vouched);
  std::string text = fmt::format("{}: {}", named(field), reading.problem);
  if (kind == FindingKind::field_unlisted)
    text +=
        ", yet a check says that the firmware wrote it: the list may be short, not the byte "
        "wrong";
  if (kind == FindingKind::field_untried) text += ", as far as the layout knows";
  Advice advice = how_to_set(field);
  if (kind == FindingKind::field_unlisted)
    advice = {{fmt::format("Leave it if the machine was content with it; otherwise set it: {}",
                           legal_values(field)),
               Act{Act::Kind::set_field, field.id, {}}}};
  if (kind == FindingKind::field_untried)
    advice = {"If the machine stored it, it is good: add the value to the layout."};
  return {kind, addresses(field), text + ".", std::move(advice), field.source};
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

FindingKind kind_of_illegal(const FieldReading& reading, bool vouched) {
  if (is_missing_size(reading)) return FindingKind::disk_not_entered;
  if (reading.field->is_partial) return FindingKind::field_untried;
  return vouched && reading.field->meaning == Meaning::choice ? FindingKind::field_unlisted
                                                              : FindingKind::field_illegal;
}

bool vouches(const CheckResult& result, const Field& field) {
  return result.counts && result.ok() && covers(*result.check, field);
}

std::vector<Finding> field_findings(const std::vector<FieldReading>& readings,
                                    const std::vector<CheckResult>& checks, const Image& image) {
  const auto vouched = [&](const Field& field) {
    return std::any_of(checks.begin(), checks.end(),
                       [&](const CheckResult& result) { return vouches(result, field); });
  };
  std::vector<Finding> findings;
  for (const FieldReading& reading : readings) {
    if (!reading.known || !reading.in_use || reading.field->id == "century") continue;
    const auto& escape = reading.field->escape;
    if (!reading.legal && escapes(reading)) {
      findings.push_back(missing_escape(reading, image));
    } else if (!reading.legal && is_missing_size(reading)) {
      if (auto finding = not_entered(reading, readings)) findings.push_back(std::move(*finding));
    } else if (!reading.legal) {
      findings.push_back(illegal(reading, vouched(*reading.field)));
    }
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

FindingKind kind_of_broken(const Field& follower) {
  // Firmware compares the memory it finds with 17h-18h and notes it in 0Eh bit 4 (5 of 5 images
  // that differ); that 14h does not agree with 10h it notes nowhere (6 images of 5 firmwares).
  // Measured; no published source.
  if (follower.id == "extended_memory_found_kib") return FindingKind::memory_found_differs;
  if (follower.id == "floppy_count" || follower.id == "floppy_fitted")
    return FindingKind::floppies_disagree;
  return FindingKind::relation_broken;
}

std::vector<Finding> relation_findings(const std::vector<FieldReading>& readings,
                                       const Layout& layout, const Image& image) {
  std::vector<Finding> findings;
  for (const FieldReading& reading : readings) {
    if (!breaks_relation(reading, layout, image)) continue;
    const Field& follower = *reading.field;
    const auto expected = expected_value(follower, layout, image);
    findings.push_back(
        {kind_of_broken(follower), bytes_of_relation(follower, layout),
         fmt::format("{} says {}, but {} would make it {}.", named(follower), reading.text,
                     leaders_text(follower, layout, image), to_text(follower, *expected)),
         relation_advice(follower, layout, *expected), follower.source});
  }
  return findings;
}

}  // namespace rtcmend
