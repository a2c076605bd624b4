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
    case Rework::supply:
      return "supply";
    case Rework::unknown:
      return "unknown";
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
    case Supply::unguarded:
      return "unguarded";
    case Supply::uncharged:
      return "uncharged";
    case Supply::to_the_end:
      break;
  }
  return "to-the-end";
}

std::string_view diode_word(Diode diode) {
  if (diode == Diode::none) return "none";
  return diode == Diode::silicon ? "silicon" : "schottky";
}

/// Which pins feed the part; null where that is not known.
Json input_json(const CellPlan& plan) {
  if (!plan.input) return nullptr;
  Json json;
  json["plus"] = plan.input->plus;
  json["minus"] = plan.input->minus;
  json["source"] = plan.input->source;
  return json;
}

Json volts_json(const CellPlan& plan) {
  const CellVoltage& at = plan.volts;
  Json json;
  json["chip_takes"] = {at.chip_least, at.chip_most};
  json["diode"] = diode_word(plan.load.diode);
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

namespace {

std::string what_fits(const CellPlan& plan) {
  const char* words = plan.load.diode == Diode::none ? "Take one of" : "Take one that gives";
  return fmt::format("{} {:.1f} to {:.1f} V{}.", words, plan.volts.chip_least, plan.volts.chip_most,
                     plan.load.diode == Diode::none ? "" : " behind the diode");
}

std::string end_words(const CellPlan& plan) {
  switch (plan.load.cell.chemistry) {
    case Chemistry::alkaline:
      return "an alkaline cell falls all the way, so that only a part of its charge is of use";
    case Chemistry::nickel:
      return "a nickel pack falls towards its end, and is charged again long before";
    case Chemistry::lithium_coin:
    case Chemistry::lithium_thionyl:
      break;
  }
  return "a lithium cell holds its voltage until shortly before its end";
}

}  // namespace

std::string supply_words(const CellPlan& plan) {
  switch (plan.supply) {
    case Supply::too_low:
      return "Too low: even a fresh cell does not reach what the part asks for, so it cannot "
             "work. " +
             what_fits(plan);
    case Supply::too_high:
      return "Too high: a fresh cell is above what the part takes, and may harm it. " +
             what_fits(plan);
    case Supply::unguarded:
      return "Never so: this part does not switch over by itself, and without a diode and a "
             "resistor "
             "the board's +5 V would charge the cell, which may burst.";
    case Supply::uncharged:
      return "Not so: nothing in this part charges a rechargeable cell, and it would be empty "
             "within "
             "months. Take one that is not rechargeable.";
    case Supply::not_quite:
      return fmt::format(
          "Works when fresh; near its end it falls below what the part asks for: {} "
          "(from memory). Replace it on its date and do not wait for the end.",
          end_words(plan));
    case Supply::to_the_end:
      break;
  }
  return "Works from fresh to its end.";
}

Json cautions_json(const std::vector<Caution>& cautions) {
  Json all = Json::array();
  for (const Caution& caution : cautions) all.push_back(caution.topic + ": " + caution.text);
  all.push_back(cautions_limit());
  return all;
}

Json plan_json(const CellPlan& plan) {
  Json json;
  json["cautions"] = cautions_json(plan.cautions);
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
  json["usable_share"] = plan.life.usable_share;
  json["diode_cost_years"] = plan.life.diode_cost_years;
  json["cell_input"] = input_json(plan);
  json["volts"] = plan.input ? volts_json(plan) : Json(nullptr);
  json["rework"] = rework_word(plan.rework);
  json["steps"] = steps_json(plan);
  json["steps_source"] = plan.steps_source;
  json["alternatives"] = alternatives_json(plan);
  return json;
}

}  // namespace rtcmend
