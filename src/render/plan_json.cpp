#include "render/plan_json.h"

#include <fmt/format.h>

namespace rtcmend {

namespace {

std::string date(const DateTime& day) {
  return fmt::format("{:04}-{:02}-{:02}", day.year, day.month, day.day);
}

std::string_view rework_word(Rework rework) {
  switch (rework) {
    case Rework::potted:
      return "potted";
    case Rework::outside:
      return "outside";
    case Rework::never:
      break;
  }
  return "never";
}

std::string_view supply_word(Supply supply) {
  switch (supply) {
    case Supply::too_low:
      return "too-low";
    case Supply::too_high:
      return "too-high";
    case Supply::not_quite:
      return "not-to-the-end";
    case Supply::to_the_end:
      break;
  }
  return "to-the-end";
}

Json cautions_json(const CellPlan& plan) {
  Json all = Json::array();
  for (const Caution& caution : plan.cautions) all.push_back(caution.topic + ": " + caution.text);
  all.push_back(cautions_limit());
  return all;
}

Json volts_json(const CellPlan& plan) {
  const CellVoltage& at = plan.volts;
  Json json;
  json["chip_takes"] = {at.chip_least, at.chip_most};
  json["fresh"] = {at.fresh_least, at.fresh_most};
  json["at_end"] = at.end;
  json["verdict"] = supply_word(plan.supply);
  json["text"] = supply_words(plan);
  return json;
}

Json steps_json(const CellPlan& plan) {
  Json all = Json::array();
  for (const WorkStep& step : plan.steps) {
    Json one;
    one["title"] = step.title;
    one["text"] = in_plain_words(step.text);
    all.push_back(one);
  }
  return all;
}

Json alternatives_json(const CellPlan& plan) {
  Json all = Json::array();
  for (const Alternative& other : plan.alternatives) {
    Json one;
    one["part"] = other.part;
    one["changes"] = other.changes;
    one["image"] = other.image;
    one["source"] = other.source;
    all.push_back(one);
  }
  return all;
}

}  // namespace

std::string_view limit_word(Limit limit) {
  switch (limit) {
    case Limit::charge:
      return "charge";
    case Limit::self_discharge:
      return "self-discharge";
    case Limit::shelf:
      break;
  }
  return "shelf-life";
}

std::string supply_words(const CellPlan& plan) {
  switch (plan.supply) {
    case Supply::too_low:
      return "Too low: even a fresh cell does not reach what the chip asks for. It cannot work so; "
             "take a 3 V lithium cell, or leave the diode out where the part has its own "
             "switch-over.";
    case Supply::too_high:
      return "Too high: a fresh cell is above what the chip's cell input takes, and may harm it. "
             "Take a 3 V lithium cell.";
    case Supply::not_quite:
      return "Works when fresh; near its end it falls below what the chip asks for, a little "
             "before it is empty: a lithium coin cell holds its voltage until shortly before its "
             "end (from memory). Replace it on its date and do not wait for the end.";
    case Supply::to_the_end:
      break;
  }
  return "Works from fresh to its end.";
}

Json plan_json(const CellPlan& plan) {
  Json json;
  json["cautions"] = cautions_json(plan);
  json["part"] = plan.part ? Json(plan.part->name) : Json(nullptr);
  json["cell"] = plan.load.cell.designation;
  json["capacity_mah"] = plan.load.cell.capacity_mah;
  json["chip_microamps"] = plan.load.chip_microamps;
  json["self_discharge_microamps"] = plan.life.self_discharge_microamps;
  json["microamps"] = plan.life.drain_microamps + plan.life.self_discharge_microamps;
  json["works"] = plan.works;
  json["years"] = plan.life.years;
  json["limited_by"] = limit_word(plan.life.limited_by);
  json["charge_years"] = plan.life.charge_years;
  json["drain_years"] = plan.life.drain_years > 0 ? Json(plan.life.drain_years) : Json(nullptr);
  json["self_discharge_years"] = plan.life.self_discharge_years;
  json["shelf_years"] = plan.life.shelf_years;
  json["range"] = {plan.life.least_years, plan.life.most_years};
  json["fitted"] = date(plan.fitted);
  json["replace_by"] = date(plan.replace_by);
  json["volts"] = volts_json(plan);
  json["rework"] = rework_word(plan.rework);
  json["steps"] = steps_json(plan);
  json["steps_source"] = plan.steps_source;
  json["alternatives"] = alternatives_json(plan);
  return json;
}

}  // namespace rtcmend
