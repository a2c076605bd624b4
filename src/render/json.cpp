#include "render/json.h"

#include "render/list_json.h"

namespace rtcmend {

namespace {

template <typename T>
Json or_null(const std::optional<T>& value) {
  return value ? Json(*value) : Json(nullptr);
}

Json value_json(const Value& value) {
  return std::visit(
      [](const auto& held) {
        if constexpr (std::is_same_v<std::decay_t<decltype(held)>, std::monostate>)
          return Json(nullptr);
        else
          return Json(held);
      },
      value);
}

Json clock_json(const ClockReading& clock) {
  Json json;
  json["iso"] = clock.time ? Json(to_iso(*clock.time)) : Json(nullptr);
  json["weekday"] = or_null(clock.weekday);
  json["encoding"] = clock.mode ? Json(clock.mode->binary ? "binary" : "bcd") : Json(nullptr);
  json["hours"] = clock.mode ? Json(clock.mode->hours_24 ? 24 : 12) : Json(nullptr);
  json["running"] = or_null(clock.running);
  return json;
}

/// The file that a layout is from, or null for a built-in one.
Json file_of(const Layout& layout) {
  return layout.files.empty() ? Json(nullptr) : Json(layout.files.front());
}

/// What a field may tell: a concealed one says only whether it is set, and that is its text.
Json told_value(const FieldReading& reading) {
  if (!reading.known || reading.field->meaning == Meaning::concealed) return nullptr;
  return value_json(reading.value);
}

Json field_json(const FieldReading& reading) {
  Json json;
  json["id"] = reading.field->id;
  json["label"] = reading.field->label;
  json["group"] = reading.field->group;
  json["at"] = addresses(*reading.field);
  json["value"] = told_value(reading);
  json["text"] = reading.text;
  json["known"] = reading.known;
  return json;
}

Json check_json(const CheckResult& result) {
  Json json;
  json["id"] = result.check->id;
  json["kind"] = kind(*result.check);
  json["over"] = Json::array();
  for (const Covered& covered : result.check->over)
    json["over"].push_back({covered.range.first, covered.range.last});
  json["at"] = stored_addresses(*result.check);
  json["stored"] = or_null(result.stored);
  json["computed"] = or_null(result.computed);
  json["ok"] = result.ok();
  return json;
}

Json finding_json(const Finding& finding) {
  Json json;
  json["id"] = finding.id();
  json["severity"] = name(finding.severity());
  json["at"] = finding.at;
  json["text"] = finding.text;
  json["do"] = in_plain_words(finding.advice);
  json["acts"] = acts_json(finding.advice);
  return json;
}

}  // namespace

Json checks_json(const std::vector<CheckResult>& checks) {
  return list_json(checks, check_json);
}

Json findings_json(const std::vector<Finding>& findings) {
  return list_json(findings, finding_json);
}

Json show_json(const Card& card) {
  Json json;
  json["layout"] = card.layout.id;
  json["layout_file"] = file_of(card.layout);
  json["size"] = card.dump.image.size();
  json["form"] = name(card.dump.form);
  json["sound"] = card.examination.sound;
  json["standing"] = standing_json(card.examination.standing);
  json["clock"] = clock_json(card.examination.clock);
  json["fields"] = list_json(card.examination.fields, field_json);
  json["checks"] = checks_json(card.examination.checks);
  json["findings"] = findings_json(card.examination.findings);
  return json;
}

Json verify_json(const Card& card) {
  Json json;
  json["layout"] = card.layout.id;
  json["layout_file"] = file_of(card.layout);
  json["sound"] = card.examination.sound;
  json["standing"] = standing_json(card.examination.standing);
  json["checks"] = checks_json(card.examination.checks);
  json["findings"] = findings_json(card.examination.findings);
  return json;
}

void add_layout(const Layout* layout, Json& json) {
  json["layout"] = layout != nullptr ? Json(layout->id) : Json(nullptr);
  json["layout_file"] = layout != nullptr ? file_of(*layout) : Json(nullptr);
}

Json compare_json(const Comparison& comparison, const Layout& layout) {
  Json json;
  json["equal"] = comparison.equal;
  json["lost"] = name(comparison.lost);
  json["differences"] = list_json(comparison.differences, [&](const Difference& difference) {
    Json one;
    one["at"] = difference.at;
    const bool hidden = layout.is_private(difference.at);
    one["wanted"] = hidden ? Json(nullptr) : or_null(difference.wanted);
    one["found"] = hidden ? Json(nullptr) : or_null(difference.found);
    one["fields"] = difference.fields;
    one["ignored"] = difference.ignored.empty() ? Json(nullptr) : Json(difference.ignored);
    return one;
  });
  return json;
}

Json identify_json(const Identification& identification) {
  Json json;
  json["candidates"] = list_json(identification.candidates, [](const Candidate& candidate) {
    Json one;
    one["layout"] = candidate.layout;
    one["score"] = candidate.score;
    one["why"] = candidate.why;
    return one;
  });
  json["layout"] = identification.clear.empty() ? Json(nullptr) : Json(identification.clear);
  json["tied"] = identification.tied;
  json["settle"] = identification.settle;
  json["families"] = Json::object();
  for (const FamilyWord& word : identification.families) {
    Json& one = json["families"][word.family];
    one["trait"] = word.trait.empty() ? Json(nullptr) : Json(word.trait);
    one["score"] = word.score;
    one["why"] = word.why;
    one["tied"] = word.tied;
  }
  json["mirrored"] = identification.mirrored;
  return json;
}

Json report_json(const Report& report) {
  Json json;
  json["output"] = report.output;
  json["form"] = name(report.form);
  json["layout"] = report.layout;
  json["layout_file"] = report.layout_file.empty() ? Json(nullptr) : Json(report.layout_file);
  json["sound"] = report.sound;
  json["standing"] = standing_json(report.standing);
  json["changes"] = list_json(report.changes, [](const Change& change) {
    Json one;
    one["at"] = change.at;
    one["before"] = or_null(change.before);
    one["after"] = or_null(change.after);
    one["fields"] = change.fields;
    return one;
  });
  json["fields"] = list_json(report.fields, [](const FieldChange& change) {
    Json one;
    one["id"] = change.id;
    one["label"] = change.label;
    one["before"] = change.before;
    one["after"] = change.after;
    return one;
  });
  json["findings"] = findings_json(report.findings);
  json["notes"] = report.notes;
  return json;
}

Json layouts_json(const std::vector<Layout>& layouts) {
  Json json;
  json["layouts"] = list_json(layouts, [](const Layout& layout) {
    Json one;
    one["id"] = layout.id;
    one["title"] = layout.title;
    one["size"] = layout.size;
    one["fields"] = layout.fields.size();
    one["checks"] = layout.checks.size();
    return one;
  });
  return json;
}

Json library_json(const std::vector<LayoutClass>& classes, const std::vector<Trait>& traits) {
  const auto trait_json = [](const Trait& trait) {
    Json one;
    one["id"] = trait.id;
    one["title"] = trait.part.title;
    one["size"] = least_size(trait.part);
    one["fields"] = trait.part.fields.size();
    one["checks"] = trait.part.checks.size();
    return one;
  };
  Json json;
  json["classes"] = list_json(classes, [&](const LayoutClass& one) {
    Json of = layouts_json({one.core})["layouts"].front();
    of["families"] = Json::object();
    for (const std::string& family : one.families) {
      Json& members = of["families"][family] = Json::array();
      for (const Trait& trait : traits)
        if (trait.family == family && std::ranges::count(trait.of, one.core.id) != 0)
          members.push_back(trait_json(trait));
    }
    return of;
  });
  return json;
}

Json standing_json(const Standing& standing) {
  Json json;
  json["dump"] = name(standing.dump);
  json["settings"] = name(standing.settings);
  json["clock"] = name(standing.clock);
  return json;
}

Json acts_json(const Advice& advice) {
  Json list = Json::array();
  for (const AdviceStep& step : advice.steps()) {
    if (!step.act) continue;
    Json one;
    one["act"] = name(step.act->kind);
    one["subject"] = step.act->subject;
    one["value"] = step.act->value;
    list.push_back(one);
  }
  return list;
}

Json advice_json(const std::vector<Advice>& list) {
  Json json = Json::array();
  for (const Advice& advice : list) json.push_back(in_plain_words(advice));
  return json;
}

std::string to_line(const Json& json) {
  return json.dump(-1, ' ', true, Json::error_handler_t::replace);
}

}  // namespace rtcmend
