#include "page/look.h"

#include "chip/registers.h"
#include "codes/forecast.h"
#include "page/cells.h"
#include "page/controls.h"
#include "render/diagnosis_json.h"
#include "render/words.h"

namespace rtcmend {

namespace {

Json layout_json(const Layout& layout) {
  Json json;
  json["id"] = layout.id;
  json["title"] = layout.title + from_a_file(layout);
  json["size"] = layout.size;
  json["notes"] = layout.notes;
  json["sources"] = layout.sources;
  json["afterComposing"] = layout.after_composing;
  json["whenWriting"] = layout.when_writing;
  return json;
}

Json clock_json(const ClockReading& clock) {
  Json json;
  json["iso"] = clock.time ? Json(to_iso(*clock.time)) : Json(nullptr);
  json["words"] = clock_words(clock);
  json["alarm"] = describe_alarm(clock);
  json["keptIn"] = clock.mode ? Json(clock.mode->binary ? "binary" : "BCD") : Json(nullptr);
  json["hours"] = clock.mode ? Json(clock.mode->hours_24 ? 24 : 12) : Json(nullptr);
  return json;
}

Json register_bits_json(Address at, std::uint8_t byte) {
  Json list = Json::array();
  for (const NamedBits& bits : register_bits()) {
    if (bits.at != at) continue;
    Json one;
    one["name"] = bits.name;
    one["label"] = bits.label;
    one["value"] = (byte >> bits.low) & ((1U << (bits.high - bits.low + 1)) - 1);
    list.push_back(one);
  }
  return list;
}

Json registers_json(const Image& image) {
  Json list = Json::array();
  for (const Address at : {reg::a, reg::b, reg::c, reg::d}) {
    const auto byte = image.at(at);
    Json one;
    one["at"] = at;
    one["name"] = std::string(1, static_cast<char>('A' + (at - reg::a)));
    one["bits"] = byte ? register_bits_json(at, *byte) : Json::array();
    one["known"] = byte.has_value();
    list.push_back(one);
  }
  return list;
}

/// The contract's keys, and what the page says beyond them.
Json checks_with_words(const std::vector<CheckResult>& checks) {
  Json list = checks_json(checks);
  for (std::size_t i = 0; i < checks.size(); ++i) {
    const CheckResult& result = checks[i];
    list[i]["words"] = describe(*result.check);
    list[i]["width"] = width(*result.check);
    list[i]["counts"] = result.counts;
    list[i]["blank"] = result.blank;
    list[i]["unknown"] = result.unknown;
    list[i]["covers"] = covered_addresses(*result.check);
    list[i]["source"] = result.check->source;
  }
  return list;
}

Json findings_with_sources(const std::vector<Finding>& findings) {
  Json list = findings_json(findings);
  for (std::size_t i = 0; i < findings.size(); ++i) list[i]["source"] = findings[i].source;
  return list;
}

Json fields_json(const std::vector<FieldReading>& readings) {
  Json list = Json::array();
  for (const FieldReading& reading : readings) list.push_back(field_with_control(reading));
  return list;
}

}  // namespace

Json look_json(const Image& image, const Layout& layout, const Readiness& ready) {
  const Examination& examination = ready.examination;
  const MemoryPlan plan = memory_plan(image, layout, examination);
  Json json;
  json["layout"] = layout_json(layout);
  json["sound"] = examination.sound;
  json["ready"] = ready.is_ready();
  json["misread"] = ready.misread;
  json["standing"] = standing_json(examination.standing);
  json["verdict"] = verdict_sentence(examination.standing);
  json["clock"] = clock_json(examination.clock);
  json["registers"] = registers_json(image);
  json["groups"] = groups_json(plan);
  json["plan"] = cells_json(plan, image, layout);
  json["fields"] = fields_json(examination.fields);
  json["checks"] = checks_with_words(examination.checks);
  json["findings"] = findings_with_sources(examination.findings);
  const Json foretold = forecast_json(forecast(examination, layout));
  json["forecast"] = foretold["codes"];
  json["cannotPromise"] = foretold["cannot_promise"];
  return json;
}

}  // namespace rtcmend
