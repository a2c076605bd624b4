#include "terminal/plan.h"

#include <catch2/catch.hpp>
#include <string>

#include "layout/parts_catalogue.h"
#include "render/plan_json.h"

using namespace rtcmend;

namespace {

bool has(const std::string& text, std::string_view words) {
  return text.find(words) != std::string::npos;
}

/// A plan with everything given, around a potted part.
CellPlan plan() {
  CellPlan plan;
  plan.cautions = {{"cell", "Never charge it."}};
  plan.load.cell = {"2032", 210, 3, 2, 0.01, 10, -30, 60, "LiCoin"};
  plan.input = usual_cell_input();
  plan.current_source = "from memory";
  plan.life = {0.5, 0.24, 47.9, 100, 32.4, 10, 10, Limit::shelf, 8, 12};
  plan.volts = {3.0, 3.3, 2.0, 2.5, 4.0, true, false};
  plan.supply = Supply::not_quite;
  plan.fitted = {2031, 5, 14, 0, 0, 0};
  plan.replace_by = {2039, 5, 14, 0, 0, 0};
  plan.steps = {{"Cut", "Cut the old cell out."}};
  plan.steps_source = "common practice, no source";
  plan.works = true;
  return plan;
}

}  // namespace

TEST_CASE("cautions come before everything else in a plan") {
  CHECK(plan_text(plan(), Ink()).starts_with("Cautions, before anything else\n  cell"));
  const Json json = plan_json(plan());
  CHECK(json.begin().key() == "cautions");
  CHECK(json["cautions"][0] == "cell: Never charge it.");
}

TEST_CASE("what limits a cell's life is said in words and in one word") {
  CellPlan asked = plan();
  CHECK(has(plan_text(asked, Ink()), "10.0 years, limited by its shelf life, not its charge\n"));
  CHECK(plan_json(asked)["limited_by"] == "shelf-life");
  asked.life.limited_by = Limit::charge;
  CHECK(has(plan_text(asked, Ink()), "limited by its charge, which the chip draws\n"));
  CHECK(plan_json(asked)["limited_by"] == "charge");
  asked.life.limited_by = Limit::self_discharge;
  CHECK(has(plan_text(asked, Ink()), "limited by its charge, most of which it loses by itself\n"));
  CHECK(plan_json(asked)["limited_by"] == "self-discharge");
}

TEST_CASE("a chip that is always fed by the machine never draws from its cell") {
  CellPlan asked = plan();
  CHECK(has(plan_text(asked, Ink()), "47.9 years\n"));
  CHECK(has(plan_text(asked, Ink()), "never: the cell feeds the chip all the time\n"));
  CHECK(plan_json(asked)["drain_years"] == 47.9);
  asked.load.powered_share = 1;
  asked.life.drain_years = 0;
  CHECK(has(plan_text(asked, Ink()), "without end: it never draws from it\n"));
  CHECK(has(plan_text(asked, Ink()), "100 % of the time the machine is on and feeds the chip\n"));
  CHECK(plan_json(asked)["drain_years"].is_null());
}

TEST_CASE("the supply of a plan has its words, its colour and its word in JSON") {
  const auto says = [](Supply supply, std::string_view begins, std::string_view colour,
                       std::string_view word) {
    CellPlan asked = plan();
    asked.supply = supply;
    CHECK(has(plan_text(asked, Ink(true)),
              "\x1b[" + std::string(colour) + "m" + std::string(begins)));
    CHECK(plan_json(asked)["volts"]["verdict"] == word);
    CHECK(plan_json(asked)["volts"]["text"].get<std::string>().starts_with(begins));
  };
  says(Supply::too_low, "Too low: even a fresh cell", "1;31", "too-low");
  says(Supply::too_high, "Too high: a fresh cell", "1;31", "too-high");
  says(Supply::not_quite, "Works when fresh; near its end", "33", "not-to-the-end");
  says(Supply::unguarded, "Never so: this part does not", "1;31", "unguarded");
  says(Supply::uncharged, "Not so: nothing in this part charges", "1;31", "uncharged");
  says(Supply::to_the_end, "Works from fresh to its end.", "32", "to-the-end");
}

TEST_CASE("voltages are a range where they differ, and a diode says what it costs") {
  CellPlan asked = plan();
  CHECK(has(plan_text(asked, Ink()), "3.0 to 3.3 V\n"));
  CHECK(has(plan_text(asked, Ink()), "none: right, for this part switches over by itself"));
  asked.volts.fresh_least = asked.volts.fresh_most = 3.0;
  asked.load.diode = Diode::silicon;
  const std::string text = plan_text(asked, Ink());
  CHECK(has(text, "fresh ............... 3.0 V\n"));
  CHECK(has(text, "silicon: takes 0.3 to 0.4 V at this current"));
  asked.load.diode = Diode::schottky;
  CHECK(has(plan_text(asked, Ink()), "Schottky: takes 0.1 to 0.3 V"));
}

TEST_CASE("a part with a charger gets no life and no voltage, only the warning") {
  CellPlan asked = plan();
  CHECK(plan_json(asked)["rework"] == "potted");
  asked.rework = Rework::outside;
  CHECK(plan_json(asked)["rework"] == "outside");
  CHECK(has(plan_text(asked, Ink()), "Expected life"));
  asked.rework = Rework::never;
  const std::string text = plan_text(asked, Ink());
  CHECK(has(text, "No plain lithium cell may be on this part: it has a charger.\n"));
  CHECK_FALSE(has(text, "Expected life"));
  CHECK_FALSE(has(text, "At the part's pins"));
  CHECK(plan_json(asked)["rework"] == "never");
}

TEST_CASE("other parts are told with what changes at the board and in the image") {
  CellPlan asked = plan();
  CHECK(has(plan_text(asked, Ink()), "a potted part, number not told\n"));
  CHECK(has(plan_text(asked, Ink()), "Say which part it is (--part,"));
  CHECK(plan_json(asked)["part"].is_null());
  asked.part = need_part("DS12887");
  CHECK(
      has(plan_text(asked, Ink()),
          "Or another part instead\n  Nothing in the catalogue takes the place of the DS12887.\n"));
  asked.alternatives = {
      {"DS12885", "A crystal and a cell outside.", {"The century moves to 32h."}, "from memory"}};
  CHECK(has(plan_text(asked, Ink()),
            "Or another part instead\n"
            "  DS12885\n"
            "     A crystal and a cell outside. (from memory)\n"
            "     In the image: The century moves to 32h.\n"));
  const Json json = plan_json(asked);
  CHECK(json["part"] == "DS12887");
  CHECK(json["alternatives"] ==
        Json::parse(R"([{"part": "DS12885", "changes": "A crystal and a cell outside.",
                         "image": ["The century moves to 32h."], "source": "from memory"}])"));
}
