#include "render/solution_json.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

#include "base/text.h"

namespace rtcmend {

namespace {

std::string ranges_in_words(const Check& check) {
  std::vector<std::string> parts;
  for (const Covered& covered : check.over) parts.push_back(to_prose(to_addresses(covered.range)));
  return join(parts, ", ");
}

Json or_null(bool present, Json value) {
  return present ? std::move(value) : Json(nullptr);
}

void add_parameters(const Rule& rule, Json& json) {
  const auto* sum = std::get_if<SumRule>(&rule);
  const auto* crc = std::get_if<CrcRule>(&rule);
  const auto* all = std::get_if<XorRule>(&rule);
  const auto* balance = std::get_if<BalanceRule>(&rule);
  json["kind"] = kind(rule);
  json["width"] = width(rule);
  json["poly"] = or_null(crc != nullptr, crc != nullptr ? Json(crc->model.poly) : Json());
  json["init"] = crc != nullptr   ? Json(crc->model.init)
                 : sum != nullptr ? Json(sum->start)
                 : all != nullptr ? Json(all->start)
                                  : Json(nullptr);
  json["refin"] = crc != nullptr ? Json(crc->model.refin) : Json(nullptr);
  json["refout"] = crc != nullptr ? Json(crc->model.refout) : Json(nullptr);
  json["xorout"] = crc != nullptr ? Json(crc->model.xorout) : Json(nullptr);
  if (sum != nullptr) {
    json["sign"] = name(sum->sign);
    json["pairs"] = sum->pairs ? Json(name(*sum->pairs)) : Json(nullptr);
  }
  if (balance != nullptr) json["target"] = balance->target;
}

void add_place(const Check& check, Json& json) {
  json["over"] = {check.over.front().range.first, check.over.back().range.last};
  json["at"] = check.stored_at;
  json["order"] = width(check) == 16 ? Json(name(check.order)) : Json(nullptr);
}

Json family_json(const Model& model) {
  Json wordings = Json::array();
  for (const Rule& rule : model.wordings) {
    Json json = Json::object();
    add_parameters(rule, json);
    wordings.push_back(json);
  }
  return {{"models", model.family.size()},
          {"first", {model.firsts.first, model.firsts.last}},
          {"last", {model.lasts.first, model.lasts.last}},
          {"wordings", wordings}};
}

Json space_json(const Space& space) {
  return {{"width", space.width},           {"models", space.models},
          {"by_luck", space.by_luck},       {"dumps_that_decide", space.decide},
          {"more_dumps", space.more_dumps}, {"listed", space.listed}};
}

}  // namespace

Json checks_as_json(const std::vector<Check>& checks) {
  Json list = Json::array();
  for (const Check& check : checks) {
    Json json = Json::object();
    add_parameters(check.rule, json);
    add_place(check, json);
    list.push_back(json);
  }
  return list;
}

std::string check_in_words(const Check& check) {
  std::string text = fmt::format("{} over {}, stored at {}", describe(check),
                                 ranges_in_words(check), to_prose(stored_addresses(check)));
  if (width(check) == 16)
    text += check.order == Order::low_first ? ", low byte first" : ", high byte first";
  return text;
}

Json model_json(const Model& model) {
  Json json = Json::object();
  add_parameters(model.check.rule, json);
  add_place(model.check, json);
  json["chance"] = model.chance;
  json["found"] = model.found();
  json["copy"] = model.copy;
  json["half_proven"] = model.half_proven;
  json["carried"] = model.carried;
  json["still"] = model.still;
  json["family"] = family_json(model);
  json["twins"] = checks_as_json(model.twins);
  json["siblings"] = checks_as_json(model.siblings);
  json["rivals"] = checks_as_json(model.rivals);
  json["wider"] = checks_as_json(model.wider);
  json["habits"] = Json::array();
  for (const Habit& habit : model.habits)
    json["habits"].push_back({{"bits", habit.bits}, {"text", habit.text}});
  return json;
}

Json solution_json(const Solution& solution) {
  Json json = Json::object();
  json["models"] = Json::array();
  for (const Model& model : solution.models) json["models"].push_back(model_json(model));
  json["decided"] = solution.decided();
  json["place_decided"] = solution.place_decided();
  json["range_decided"] = solution.range_decided();
  json["odd"] = nullptr;
  if (solution.odd) json["odd"] = {{"dump", solution.odd->dump}, {"alone", solution.odd->alone}};
  json["restless"] = solution.restless;
  json["crowded"] = solution.crowded;
  json["complete"] = solution.complete;
  json["dumps"] = solution.dumps;
  json["repeats"] = solution.repeats;
  json["spaces"] = Json::array();
  for (const Space& space : solution.spaces) json["spaces"].push_back(space_json(space));
  json["next"] = {{"at", solution.next.bytes}, {"why", solution.next.why}};
  return json;
}

}  // namespace rtcmend
