#include "render/trace_json.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "render/solution_json.h"

namespace rtcmend {

namespace {

std::string_view word(Encoding::Kind kind) {
  switch (kind) {
    case Encoding::Kind::number:
      return "number";
    case Encoding::Kind::bcd:
      return "bcd";
    case Encoding::Kind::flag:
      return "flag";
    case Encoding::Kind::choice:
      break;
  }
  return "choice";
}

Json bits_json(const std::vector<Bit>& bits) {
  Json list = Json::array();
  for (const Bit& bit : bits) list.push_back({{"at", bit.at}, {"bit", bit.bit}});
  return list;
}

Json field_json(const TracedField& field) {
  Json json = Json::object();
  json["settings"] = field.settings;
  json["bits"] = bits_json(field.encoding.bits);
  json["values"] = Json::object();
  for (const TracedValue& value : field.values) json["values"][value.value] = value.raw;
  json["encoding"] = word(field.encoding.kind);
  json["scale"] = field.encoding.scale;
  json["offset"] = field.encoding.offset;
  json["copies"] = Json::array();
  for (const auto& copy : field.encoding.copies) json["copies"].push_back(bits_json(copy));
  json["drags"] = field.drags;
  json["dragged_by"] = field.dragged_by;
  json["count"] = field.is_count;
  json["open"] = field.open.empty() ? Json(nullptr) : Json(field.open);
  return json;
}

Json contradiction_json(const Contradiction& contradiction) {
  return {{"label", contradiction.setting},
          {"value", contradiction.value},
          {"dumps", {contradiction.one, contradiction.other}},
          {"at", contradiction.bytes},
          {"text", contradiction.text}};
}

}  // namespace

Json trace_json(const Trace& trace, const Draft& draft) {
  Json json = Json::object();
  json["fields"] = Json::array();
  for (const TracedField& field : trace.fields) json["fields"].push_back(field_json(field));
  json["volatile"] = trace.restless;
  json["checks"] = Json::array();
  for (const Model& model : trace.checks) json["checks"].push_back(model_json(model));
  json["contradictions"] = Json::array();
  for (const Contradiction& contradiction : trace.contradictions)
    json["contradictions"].push_back(contradiction_json(contradiction));
  json["mistakes"] = Json::array();
  for (const Mistake& mistake : trace.mistakes)
    json["mistakes"].push_back({{"step", mistake.step}, {"text", mistake.text}});
  json["next"] = trace.next;
  json["silent"] = trace.silent;
  json["notes"] = trace.notes;
  json["merging"] = draft.notes;
  json["complete"] = trace.complete;
  json["draft"] = draft.layout;
  return json;
}

}  // namespace rtcmend
