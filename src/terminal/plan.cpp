#include "terminal/plan.h"

#include <fmt/format.h>

#include "terminal/advice.h"
#include "terminal/columns.h"

namespace rtcmend {

namespace {

constexpr std::size_t text_column = 24;

std::string line(std::string_view word, std::string_view text) {
  return fmt::format("  {} {}\n", dotted(word, text_column - 3), hanging(text, text_column));
}

std::string date(const DateTime& day) {
  return fmt::format("{:04}-{:02}-{:02}", day.year, day.month, day.day);
}

std::string years(double count) {
  return fmt::format("{:.1f} years", count);
}

std::string volts(double least, double most) {
  if (least == most) return fmt::format("{:.1f} V", least);
  return fmt::format("{:.1f} to {:.1f} V", least, most);
}

std::string powered_words(double share) {
  if (share == 0) return "never: the cell feeds the chip all the time";
  return fmt::format("{:.0f} % of the time the machine is on and feeds the chip", share * 100);
}

std::string load_text(const CellPlan& plan, const Ink& ink) {
  const Cell& cell = plan.load.cell;
  std::string text = ink(Tone::strong, "What was asked") + "\n";
  text += line("part", plan.part ? plan.part->name : "a potted part, number not told");
  text += line("cell", fmt::format("{}, {:g} mAh, {:g} V ({})", cell.designation, cell.capacity_mah,
                                   cell.nominal_volts, cell.source));
  text += line("the chip draws",
               fmt::format("{:g} uA ({})", plan.load.chip_microamps, plan.current_source));
  text +=
      line("the cell loses", fmt::format("{:.3f} uA by itself, at {:g} C",
                                         plan.life.self_discharge_microamps, plan.load.celsius));
  text += line("in all", fmt::format("{:.3f} uA", plan.life.drain_microamps +
                                                      plan.life.self_discharge_microamps));
  return text + line("powered", powered_words(plan.load.powered_share));
}

std::string limit_phrase(Limit limit) {
  switch (limit) {
    case Limit::charge:
      return "its charge, which the chip draws";
    case Limit::self_discharge:
      return "its charge, most of which it loses by itself";
    case Limit::shelf:
      break;
  }
  return "its shelf life, not its charge";
}

std::string usable_words(const CellLife& life) {
  if (life.usable_share >= 1) return {};
  return fmt::format("; {:.0f} % of it lies above what the part needs (an estimate, from memory)",
                     life.usable_share * 100);
}

std::string warmth_words(const CellPlan& plan) {
  if (plan.load.celsius <= 25) return {};
  return fmt::format("; {:g} years at 25 C, halved for every {:g} C more (10 to 15 C: from memory)",
                     plan.load.cell.shelf_years, expected.halving_degrees);
}

/// What the least and the most of the years are worked out with.
std::string margin_words() {
  return fmt::format(
      "cells and chips differ. The least takes {:.0f} % of the charge, {:g} times the "
      "current, {:g} times the self-discharge and {:.0f} % of the shelf life, the most "
      "{:g} times the current and self-discharge (rtcmend's own margins, no source)",
      cautious.capacity * 100, cautious.drain, cautious.self_discharge, cautious.shelf * 100,
      lucky.drain);
}

std::string life_text(const CellPlan& plan, const Ink& ink) {
  const CellLife& life = plan.life;
  const bool charged = plan.load.cell.rechargeable();
  std::string text =
      fmt::format("{}: {}, limited by {}\n",
                  ink(Tone::strong, charged ? "Without power a charge lasts" : "Expected life"),
                  ink(Tone::strong, years(life.years)), limit_phrase(life.limited_by));
  if (charged) text += line("rechargeable", "the board must charge it while the machine is on");
  text += line("by the chip alone", life.drain_years > 0 ? years(life.drain_years)
                                                         : "without end: it never draws from it");
  text += line("by self-discharge", years(life.self_discharge_years) + " alone");
  text += line("by charge", years(life.charge_years) + ", both together" + usable_words(life));
  text += line("by shelf life",
               years(life.shelf_years) + ", the most to count on" + warmth_words(plan));
  if (plan.load.diode != Diode::none && plan.input->between == Between::nothing)
    text += line("the diode costs", fmt::format("{} by charge, and all margin near the end (an "
                                                "estimate, from memory)",
                                                years(life.diode_cost_years)));
  text += line("to plan with", fmt::format("{:.1f} to {:.1f} years: {}", life.least_years,
                                           life.most_years, margin_words()));
  return text + line("replace it by", fmt::format("{}, when fitted on {}", date(plan.replace_by),
                                                  date(plan.fitted)));
}

std::string diode_words(const CellPlan& plan) {
  const bool needed = plan.input->between == Between::diode_and_resistor;
  if (plan.load.diode == Diode::none)
    return needed ? "none: wrong, for this part does not switch over by itself"
                  : "none: right, for this part switches over by itself";
  const Drop drop = drop_of(plan.load.diode, plan.load.chip_microamps);
  return fmt::format("{}: takes {:.1f} to {:.1f} V at this current (an estimate, from memory){}",
                     plan.load.diode == Diode::silicon ? "silicon" : "Schottky", drop.least,
                     drop.most,
                     needed ? ", with a resistor: this part needs both" : "; this part needs none");
}

std::string voltage_text(const CellPlan& plan, const Ink& ink) {
  const CellVoltage& at = plan.volts;
  const CellInput& input = *plan.input;
  std::string text = ink(Tone::strong, "At the part's pins") + "\n";
  text += line("fed at", fmt::format("pin {} plus, pin {} minus{}", input.plus, input.minus,
                                     plan.part ? "" : ", on parts of the DS1287 kind"));
  text += line("the part takes",
               fmt::format("{} ({})", volts(at.chip_least, at.chip_most), input.source));
  text += line("diode", diode_words(plan));
  text += line("fresh", volts(at.fresh_least, at.fresh_most));
  text += line("at its end", volts(at.end, at.end));
  const Tone tone = plan.supply == Supply::to_the_end  ? Tone::good
                    : plan.supply == Supply::not_quite ? Tone::doubtful
                                                       : Tone::bad;
  return text + "  " + ink(tone, hanging(supply_words(plan), 2)) + "\n";
}

std::string steps_text(const CellPlan& plan, const Ink& ink) {
  if (plan.steps.empty())
    return ink(Tone::bad, "No work is planned with this cell.") +
           " Plan again with one that the part takes.\n";
  std::string text = ink(Tone::strong, "The work") + "\n  " +
                     hanging(fmt::format("({})", plan.steps_source), 2) + "\n";
  std::size_t number = 1;
  for (const WorkStep& step : plan.steps)
    text += fmt::format("  {}. {}\n     {}\n", number++, ink(Tone::strong, step.title),
                        hanging(advice_text(step.text), 5));
  return text;
}

std::string alternatives_text(const CellPlan& plan, const Ink& ink) {
  std::string text = ink(Tone::strong, "Or another part instead") + "\n";
  if (!plan.part)
    return text + "  " +
           hanging(
               "Say which part it is (--part, the number on its back), and the ones that can "
               "take its place are listed here; \"rtcmend chips\" has them all.",
               2) +
           "\n";
  if (plan.alternatives.empty())
    return text +
           fmt::format("  Nothing in the catalogue takes the place of the {}.\n", plan.part->name);
  for (const Alternative& other : plan.alternatives) {
    text += fmt::format("  {}\n     {}\n", ink(Tone::strong, other.part),
                        hanging(fmt::format("{} ({})", other.changes, other.source), 5));
    for (const std::string& change : other.image)
      text += "     " + hanging("In the image: " + change, 5) + "\n";
  }
  return text;
}

}  // namespace

std::string cautions_text(const std::vector<Caution>& cautions, const Ink& ink) {
  std::string text = ink(Tone::strong, "Cautions, before anything else") + "\n";
  for (const Caution& caution : cautions) text += line(caution.topic, caution.text);
  return text + "  " + hanging(cautions_limit(), 2) + "\n";
}

std::string plan_text(const CellPlan& plan, const Ink& ink) {
  std::string text = cautions_text(plan.cautions, ink) + "\n";
  if (plan.rework == Rework::never)
    text += ink(Tone::bad, "No plain lithium cell may be on this part: it has a charger.") + "\n\n";
  else if (plan.rework == Rework::unknown)
    text +=
        ink(Tone::bad, hanging("Which pins feed this part, and with how much, is not known here: "
                               "no work on its cell is planned.",
                               0)) +
        "\n\n";
  else
    text += load_text(plan, ink) + "\n" + (plan.works ? life_text(plan, ink) + "\n" : "") +
            voltage_text(plan, ink) + "\n";
  return text + steps_text(plan, ink) + "\n" + alternatives_text(plan, ink);
}

}  // namespace rtcmend
