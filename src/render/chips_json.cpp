#include "render/chips_json.h"

#include <fmt/format.h>

#include "base/text.h"
#include "layout/parts_catalogue.h"
#include "render/part_words.h"

namespace rtcmend {

namespace {

Json input_json(const Part& part) {
  if (!part.cell_input) return nullptr;
  const CellInput& input = *part.cell_input;
  Json json;
  json["plus"] = input.plus;
  json["minus"] = input.minus;
  json["volts"] = {input.least_volts, input.most_volts};
  json["between"] = input.between == Between::nothing ? "nothing" : "diode-and-resistor";
  json["source"] = input.source;
  return json;
}

Json part_json(const Part& part) {
  Json json;
  json["part"] = part.name;
  json["ram_bytes"] = part.ram_bytes;
  json["size"] = part.size;
  json["package"] = package_word(part.package);
  json["cell"] = cell_word(part.cell);
  json["keeps_century"] = part.keeps_century;
  json["ram_clear"] = part.ram_clear;
  json["ram_clear_pin"] = part.ram_clear_pin ? Json(*part.ram_clear_pin) : Json(nullptr);
  json["ships_stopped"] = part.ships_stopped;
  json["trickle_charger"] = part.trickle_charger;
  json["replaces"] = Json::array();
  for (const Replacement& other : part.replaces) {
    Json one;
    one["part"] = other.part;
    one["changes"] = other.changes;
    one["source"] = other.source;
    json["replaces"].push_back(one);
  }
  json["replaced_by"] = Json::array();
  for (const Successor& other : successors(part)) json["replaced_by"].push_back(other.part->name);
  json["pins"] = Json::array();
  for (const Pin& pin : part.pins) {
    Json one;
    one["pin"] = pin.pin;
    one["what"] = pin.what;
    json["pins"].push_back(one);
  }
  json["cell_input"] = input_json(part);
  json["vrt_set_by_reading"] = part.vrt_set_by_reading;
  json["running_dividers"] = part.running_dividers;
  json["daylight_saving"] =
      part.daylight_saving.empty() ? Json(nullptr) : Json(part.daylight_saving);
  json["notes"] = part.notes;
  json["source"] = part.source;
  return json;
}

}  // namespace

Json chips_json(const std::vector<Part>& parts) {
  Json json;
  json["parts"] = Json::array();
  for (const Part& part : parts) json["parts"].push_back(part_json(part));
  return json;
}

}  // namespace rtcmend
