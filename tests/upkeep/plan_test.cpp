#include <catch2/catch.hpp>

#include "base/error.h"
#include "layout/parts_catalogue.h"
#include "upkeep/cell_plan.h"

using namespace rtcmend;

namespace {

PlanQuestion question(const char* cell) {
  PlanQuestion asked;
  asked.cell = cell_named(cell);
  asked.fitted = {2031, 5, 14, 0, 0, 0};
  return asked;
}

CellPlan plan_for(const char* part) {
  PlanQuestion asked = question("2032");
  asked.part = need_part(part);
  return plan_cell(asked);
}

std::size_t step_about(const CellPlan& plan, std::string_view words) {
  std::size_t number = 0;
  for (const WorkStep& step : plan.steps) {
    if (step.title.find(words) != std::string::npos) return number;
    ++number;
  }
  return plan.steps.size();
}

}  // namespace

TEST_CASE("the commonest case: ten years by shelf life, eight to plan with") {
  const CellPlan made = plan_cell(question("2032"));
  CHECK(made.life.years == 10);
  CHECK(made.life.limited_by == Limit::shelf);
  // The cautious shelf life of eight years is rtcmend's own margin: no source.
  CHECK(made.life.least_years == 8);
  CHECK(made.life.most_years == 10);
  CHECK(made.replace_by == DateTime{2039, 5, 14, 0, 0, 0});
  CHECK(made.works);
  CHECK(made.supply == Supply::not_quite);
}

TEST_CASE("every plan begins with the cautions, lithium and mains among them") {
  const CellPlan made = plan_cell(question("2032"));
  REQUIRE(made.cautions.size() == 8);
  CHECK(made.cautions[0].text.find("Switch off AND unplug") == 0);
  CHECK(made.cautions[1].text.find("Never charge it") == 0);
  CHECK(made.cautions[3].text.find("medical emergency") != std::string::npos);
  CHECK(made.cautions[4].text.find("qualified person") != std::string::npos);
}

TEST_CASE("in a potted part the old cell is cut off at pins 16 and 20 before a new one goes on") {
  // Common practice, no source.
  const CellPlan made = plan_for("DS12887");
  CHECK(made.rework == Rework::potted);
  const std::size_t save = step_about(made, "Save the bytes"), find = step_about(made, "16 and 20"),
                    cut = step_about(made, "Cut the old cell"), solder = step_about(made, "Solder");
  CHECK(save == 0);
  CHECK(find < cut);
  CHECK(cut < solder);
  CHECK(solder < made.steps.size());
  CHECK(made.steps.back().text.steps().front().act == Act{Act::Kind::compare_kept, {}, "30m"});
}

TEST_CASE("the alternatives say what changes at the board and for the image") {
  // DS12885: DS12887 for DS1287; the rest common practice.
  const CellPlan made = plan_for("DS1287");
  REQUIRE(made.alternatives.size() == 4);
  CHECK(made.alternatives[0].part == "DS1287A");
  CHECK(made.alternatives[3].part == "DS12C887");
  const std::vector<std::string>& image = made.alternatives[3].image;
  REQUIRE(image.size() == 3);
  CHECK(image[0].find("0Ah must turn the oscillator on") == 0);
  CHECK(image[1].find("64 bytes still fits") != std::string::npos);
  CHECK(image[2].find("32h belongs to the part") == 0);
}

TEST_CASE("a part with a charger gets no plain lithium cell") {
  // Data sheet 19-5217: built-in trickle charger.
  const CellPlan made = plan_for("DS12CR887");
  CHECK(made.rework == Rework::never);
  CHECK_FALSE(made.works);
  CHECK(step_about(made, "Fit no plain cell") == 1);
}

TEST_CASE("the part's own current counts unless another is given") {
  // MC146818A: about 40 uW at 3 V (from memory): 13 uA.
  CHECK(plan_for("MC146818A").life.drain_microamps == 13);
  CHECK(plan_for("DS12887").life.drain_microamps == 0.5);
  PlanQuestion asked = question("6V-LITHIUM");
  asked.part = need_part("MC146818A");
  asked.chip_microamps = 5;
  CHECK(plan_cell(asked).life.drain_microamps == 5);
}

TEST_CASE("a cell that cannot feed the chip is told by its verdict") {
  // Limits 2.5 to 4.0 V: DS12885, the upper one from memory.
  CHECK(plan_cell(question("LR44")).supply == Supply::too_low);
  CHECK_FALSE(plan_cell(question("LR44")).works);
  // No work is planned with it.
  CHECK(plan_cell(question("LR44")).steps.empty());
  PlanQuestion asked = question("4.5V-ALKALINE");
  CHECK(plan_cell(asked).supply == Supply::too_high);
  // A silicon diode at under 1 uA: 0.3 to 0.4 V, an estimate from memory.
  asked = question("ER14250");
  CHECK(plan_cell(asked).works);
  asked.diode = Diode::silicon;
  CHECK(plan_cell(asked).volts.fresh_most == Approx(3.3));
  CHECK(plan_cell(asked).works);
}

TEST_CASE("when the machine is always on, the cell loses its charge by itself") {
  PlanQuestion asked = question("1220");
  asked.powered_share = 1;
  asked.celsius = 70;
  const CellPlan made = plan_cell(asked);
  CHECK(made.life.drain_microamps == 0);
  // 1 % a year, doubled every ten degrees (from memory): 22.6 % a year at 70 C.
  CHECK(made.life.charge_years == Approx(4.42).margin(0.01));
}

TEST_CASE("warmth shortens shelf life: half for every 10 to 15 degrees above 25 C") {
  // From memory: halved for 10 to 15 C more; 12.5 between, 10 for the cautious figure.
  const auto at = [](double celsius) {
    PlanQuestion asked = question("2032");
    asked.celsius = celsius;
    return plan_cell(asked).life;
  };
  CHECK(at(25).shelf_years == 10);
  CHECK(at(0).shelf_years == 10);
  CHECK(at(37.5).shelf_years == Approx(5));
  CHECK(at(50).shelf_years == Approx(2.5));
  CHECK(at(35).years == Approx(5.743).margin(0.001));
  // Eight years at 25 C are four at 35 C.
  CHECK(at(35).least_years == Approx(4));
  // 10 years, halved for 15 degrees: 10 / 2^(10/15).
  CHECK(at(35).most_years == Approx(6.300).margin(0.001));
}

TEST_CASE("a diode that a part does not need costs charge, a coin cell's last fifth") {
  // The shape of the discharge is from memory: a fifth of the charge lies below 2.9 V.
  PlanQuestion asked = question("2032");
  asked.part = need_part("DS12885");
  const CellLife plain = plan_cell(asked).life;
  CHECK(plain.usable_share == 1);
  CHECK(plain.diode_cost_years == 0);
  asked.diode = Diode::silicon;
  const CellLife dropped = plan_cell(asked).life;
  CHECK(dropped.usable_share == Approx(0.8).margin(0.002));
  CHECK(dropped.diode_cost_years == Approx(33.9 * 0.2).margin(0.1));
}

TEST_CASE("the early part is planned at its own pins, behind a diode, with a pack") {
  // MC146818A: supply 3 to 6 V, published; pin 24 and the diode from memory.
  PlanQuestion asked;
  asked.part = need_part("MC146818A");
  asked.fitted = {2031, 5, 14, 0, 0, 0};
  const CellPlan made = plan_cell(asked);
  CHECK(made.rework == Rework::supply);
  CHECK(made.load.cell.designation == "4.5V-ALKALINE");
  CHECK(made.load.diode == Diode::silicon);
  CHECK(made.volts.chip_least == 3);
  CHECK(made.volts.chip_most == 6);
  CHECK(made.works);
  CHECK(plan_for("MC146818A").supply == Supply::too_low);  // 3 V less the diode
  asked.diode = Diode::none;
  CHECK(plan_cell(asked).supply == Supply::unguarded);
  CHECK_FALSE(plan_cell(asked).works);
}

TEST_CASE(
    "a rechargeable pack is no cell for a potted part, and a nickel pack right for the early one") {
  PlanQuestion asked = question("3.6V-NICKEL");
  asked.part = need_part("DS12887");
  CHECK(plan_cell(asked).supply == Supply::uncharged);
  asked.part = need_part("MC146818");
  CHECK(plan_cell(asked).works);
  // The pack is replaced by its age: five years, from memory, less a fifth of caution.
  CHECK(plan_cell(asked).replace_by == DateTime{2035, 5, 14, 0, 0, 0});
  // On its charger 1.45 V a cell (from memory), less the diode: 4.32 - 0.4 and 3.6 - 0.5 V.
  CHECK(plan_cell(asked).volts.fresh_most == Approx(3.92));
  CHECK(plan_cell(asked).volts.fresh_least == Approx(3.1));
  // That is more than the 4.0 V of a part that has its pin for a cell.
  asked.part = need_part("DS12885");
  CHECK(plan_cell(asked).supply == Supply::too_high);
}

TEST_CASE("a nickel pack keeps its charger, and gets a day; a plain cell gets its two guards") {
  // Common practice, no source.
  const auto planned = [](const char* cell) {
    PlanQuestion asked = question(cell);
    asked.part = need_part("MC146818");
    return plan_cell(asked);
  };
  const CellPlan nickel = planned("3.6V-NICKEL"), alkaline = planned("4.5V-ALKALINE");
  CHECK(step_about(nickel, "Let the machine charge it") <
        step_about(nickel, "Measure when it has run"));
  CHECK(step_about(nickel, "two things guard") == nickel.steps.size());
  CHECK(step_about(alkaline, "Let the machine charge it") == alkaline.steps.size());
  const auto words = [](const CellPlan& plan, const char* title) {
    return plan.steps.at(step_about(plan, title)).text.steps().back().words;
  };
  CHECK(words(nickel, "board charges").find("leave the charger in") != std::string::npos);
  CHECK(words(alkaline, "board charges").find("take that resistor or diode out") !=
        std::string::npos);
  CHECK(words(alkaline, "two things guard").find("its band towards pin 24") != std::string::npos);
}

TEST_CASE("a pin that clears the memory is named where it is worked beside") {
  // DS12887A: 21, published.
  CHECK(step_about(plan_for("DS12887A"), "Mind pin 21") <
        step_about(plan_for("DS12887A"), "Open the potting"));
  const CellPlan without = plan_for("DS12887");
  CHECK(step_about(without, "Mind pin") == without.steps.size());
}

TEST_CASE("a part whose pins nobody knows gets no work on its cell") {
  const CellPlan made = plan_for("M48T86");
  CHECK(made.rework == Rework::unknown);
  CHECK_FALSE(made.works);
  CHECK_FALSE(made.input);
  CHECK(made.steps.size() == 2);
}

TEST_CASE("a cell is known by its letters, a rechargeable one refused by them") {
  CHECK(cell_named("cr 2032").designation == "2032");
  CHECK(cell_named("ER14250").nominal_volts == 3.6);
  for (const char* name : {"LIR2032", "ML2032", "VL2020"}) CHECK_THROWS_AS(cell_named(name), Error);
  try {
    cell_named("CR2023");
    FAIL("accepted");
  } catch (const Error& error) {
    CHECK(error.remedy().find("2032") != std::string::npos);
  }
}

TEST_CASE("a leap day has its anniversaries on the day that so much time makes it") {
  CHECK(years_after({2028, 2, 29, 12, 0, 0}, 4) == DateTime{2032, 2, 29, 0, 0, 0});
  CHECK(years_after({2028, 2, 29, 12, 0, 0}, 1) == DateTime{2029, 2, 28, 0, 0, 0});
}

TEST_CASE("a part with its cell outside gets the steps for the board, its charger sought out") {
  // Common practice, no source.
  const CellPlan made = plan_for("DS12885");
  CHECK(made.rework == Rework::outside);
  const std::size_t out = step_about(made, "Take the old cell out"),
                    charger = step_about(made, "See whether the board charges"),
                    in = step_about(made, "Fit a holder, then the cell");
  CHECK(out < charger);
  CHECK(charger < in);
  CHECK(in < made.steps.size());
  CHECK(step_about(made, "Let the machine charge it") == made.steps.size());
  CHECK(step_about(made, "Cut the old cell off") == made.steps.size());
}

TEST_CASE("a part for a like one needs no change of the image") {
  // A second source, from memory.
  const CellPlan made = plan_for("MC146818A");
  REQUIRE(made.alternatives.size() == 1);
  CHECK(made.alternatives[0].part == "HD146818");
  CHECK(made.alternatives[0].image == std::vector<std::string>{"Nothing: the same bytes go in."});
}

TEST_CASE("the century at 32h is news only for a part that had none") {
  const CellPlan made = plan_for("DS12C887");
  REQUIRE(made.alternatives.size() == 1);
  CHECK(made.alternatives[0].part == "DS12C887A");
  CHECK(made.alternatives[0].image.size() == 1);
}

TEST_CASE("cells are known with dashes, in either case, and by each maker's letters") {
  for (const char* name : {"CR-2032", "dl2032", "ECR2032", "2032"})
    CHECK(cell_named(name).capacity_mah == 225);
  CHECK(known_cells().size() == 11);
  try {
    cell_named("fork");
    FAIL("accepted");
  } catch (const Error& error) {
    CHECK(error.remedy() ==
          "known: 2032, 2025, 2016, 2450, 1225, 1220, ER14250, LR44, 3.6V-NICKEL, "
          "4.5V-ALKALINE, 6V-LITHIUM; or its capacity in mAh");
  }
}

TEST_CASE("a cell's volts and capacity have bounds, which are still allowed") {
  const Cell cell = cell_named("2032");
  CHECK_THROWS_AS(with_volts(cell, 0.49), Error);
  CHECK_THROWS_AS(with_volts(cell, 10.01), Error);
  CHECK(with_volts(cell, 2.7).end_volts == Approx(1.8));
  CHECK(with_volts(cell, 3.3).end_volts == Approx(2.2));
  CHECK_THROWS_AS(with_volts(cell, 2.69), Error);
  CHECK_THROWS_AS(with_volts(cell, 3.31), Error);
  try {
    with_volts(cell, 3.6);
    FAIL("accepted");
  } catch (const Error& error) {
    CHECK(error.message() == "2032 has 3 V, not 3.6");
    CHECK(error.remedy() ==
          "the cell itself: ER14250 (3.6 V) or 3.6V-NICKEL (3.6 V, where the board charges it)");
  }
  CHECK(with_volts(cell, 3).source == cell.source);
  CHECK_THROWS_AS(cell_of_capacity(0.9), Error);
  CHECK_THROWS_AS(cell_of_capacity(10'001), Error);
  CHECK(cell_of_capacity(1).designation == "1 mAh");
  CHECK(cell_of_capacity(10'000).capacity_mah == 10'000);
}

TEST_CASE("a diode costs its share of the cell's volts, a Schottky less than silicon") {
  // Estimates from memory: 0.1 to 0.3 V, and 0.3 to 0.4 V.
  const auto fresh = [](const char* diode) {
    return cell_voltage({.cell = cell_named("2032"), .diode = diode_named(diode)});
  };
  CHECK(fresh("none").fresh_least == 3);
  CHECK(fresh("schottky").fresh_least == Approx(2.7));
  CHECK(fresh("schottky").fresh_most == Approx(2.9));
  CHECK(fresh("silicon").fresh_most == Approx(2.7));
}
