#include "render/drives_json.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "layout/codec.h"

namespace rtcmend {

namespace {

Json match_json(const DriveMatch& match) {
  Json json;
  json["type"] = match.type.type;
  json["capacity"] = match.capacity;
  json["fit"] = name(match.fit);
  json["lost"] = match.lost;
  json["cylinders"] = match.type.cylinders;
  json["heads"] = match.type.heads;
  json["sectors"] = match.type.sectors;
  json["write_precompensation"] =
      match.type.write_precompensation ? Json(*match.type.write_precompensation) : Json(nullptr);
  json["landing_zone"] = match.type.landing_zone;
  json["unsure"] = match.unsure;
  return json;
}

Json by_hand_json(const ByHand& block) {
  Json json;
  json["disk"] = block.label;
  json["type"] = block.type ? Json(*block.type) : Json(nullptr);
  json["set"] = Json::object();
  for (const Setting& setting : block.settings)
    json["set"][setting.field] = std::get<std::int64_t>(setting.value);
  json["problem"] = block.problem.empty() ? Json(nullptr) : Json(block.problem);
  return json;
}

}  // namespace

Json drives_json(const DriveCard& card) {
  Json json;
  json["table"] = card.advice.common_table ? "common" : card.layout->id;
  json["capacity"] = card.disk.capacity;
  json["matches"] = Json::array();
  for (const DriveMatch& match : card.advice.matches) json["matches"].push_back(match_json(match));
  json["by_hand"] = Json::array();
  for (const ByHand& block : card.advice.by_hand) json["by_hand"].push_back(by_hand_json(block));
  return json;
}

}  // namespace rtcmend
