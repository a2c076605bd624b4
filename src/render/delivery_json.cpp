#include "render/delivery_json.h"

#include <fmt/format.h>

#include "base/text.h"
#include "render/list_json.h"

namespace rtcmend {

Json carried_json(const Carried& carried) {
  const Delivery& delivery = carried.delivery;
  Json json;
  json["output"] = carried.output;
  json["way"] = name(carried.way);
  json["bytes"] = delivery.content.size();
  json["keystrokes"] = delivery.keystrokes;
  json["steps"] = advice_json(delivery.steps);
  json["cautions"] = advice_json(delivery.cautions);
  json["sheet"] = delivery.sheet.empty() ? Json(nullptr) : Json(delivery.sheet);
  return json;
}

Json openings_json(const std::vector<Opening>& openings) {
  Json json;
  json["openings"] = list_json(openings, [](const Opening& one) {
    Json entry;
    entry["way"] = name(one.way);
    entry["open"] = one.open;
    entry["needs"] = one.needs;
    entry["cannot"] = one.cannot;
    return entry;
  });
  return json;
}

Json ways_json(const std::vector<WayFigures>& figures) {
  Json json;
  json["ways"] = list_json(figures, [](const WayFigures& way) {
    Json entry;
    entry["way"] = name(way.way);
    entry["captures"] = true;
    entry["bytes"] = way.bytes;
    entry["keystrokes"] = way.keystrokes;
    entry["keystrokes_per_byte"] = keystrokes_per_byte(way);
    entry["least_keystrokes"] = way.least;
    entry["least_because"] = way.least_because;
    return entry;
  });
  return json;
}

}  // namespace rtcmend
