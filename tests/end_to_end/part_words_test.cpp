// What the commands say of a part, held against its row of the catalogue: no pin, no voltage and no
// diode that does not stand there.
#include <algorithm>
#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <regex>
#include <set>

#include "base/text.h"
#include "chip/cautions.h"
#include "layout/parts_catalogue.h"
#include "support/sound_images.h"
#include "upkeep/cell_plan.h"
#include "workbench.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

/// The output on one line, so that no sentence is broken.
std::string flowing(const std::string& text) {
  static const std::regex blanks("[ \n]+");
  return std::regex_replace(text, blanks, " ");
}

/// Every number that a text uses as a pin's.
std::set<int> pins_named(const std::string& text) {
  static const std::regex ways(
      "(?:[Pp]ins?|[Bb]etween|[Rr]ed to|black to|plus on|minus on|path from|potting at|so that) "
      "(?:pin )?([0-9]{1,2})(?:(?:, | and | to | against pin )([0-9]{1,2}))?\\b(?! "
      "(?:C|V|%|mAh|years|uA|bytes))");
  std::set<int> named;
  for (std::sregex_iterator found(text.begin(), text.end(), ways), end; found != end; ++found)
    for (std::size_t i = 1; i <= 2; ++i)
      if ((*found)[i].matched) named.insert(std::stoi((*found)[i]));
  return named;
}

/// The pins that the part's row knows: "4-11" and "2, 3" spelled out.
std::set<int> pins_of(const Part& part) {
  std::set<int> known;
  static const std::regex range("([0-9]+)(?:-([0-9]+))?");
  for (const Pin& pin : part.pins)
    for (std::sregex_iterator found(pin.pin.begin(), pin.pin.end(), range), end; found != end;
         ++found) {
      const int from = std::stoi((*found)[1]);
      const int to = (*found)[2].matched ? std::stoi((*found)[2]) : from;
      for (int number = from; number <= to; ++number) known.insert(number);
    }
  if (part.ram_clear_pin) known.insert(*part.ram_clear_pin);
  return known;
}

std::set<std::string> volts_named(const std::string& text) {
  static const std::regex ways("([0-9]+(?:\\.[0-9])?)(?: to ([0-9]+(?:\\.[0-9])?))? V\\b");
  std::set<std::string> named;
  for (std::sregex_iterator found(text.begin(), text.end(), ways), end; found != end; ++found)
    for (std::size_t i = 1; i <= 2; ++i)
      if ((*found)[i].matched) named.insert(fmt::format("{:.1f}", std::stod((*found)[i])));
  return named;
}

/// What the part's row says, the machine's +5 V, and what follows from the cell that was asked for.
std::set<std::string> volts_of(const CellPlan& plan) {
  std::set<std::string> known{"5.0"};
  const auto add = [&](double volts) { known.insert(fmt::format("{:.1f}", volts)); };
  if (!plan.input) return known;
  add(plan.input->least_volts);
  add(plan.input->most_volts);
  add(plan.load.cell.nominal_volts);
  add(plan.volts.fresh_least);
  add(plan.volts.fresh_most);
  add(plan.volts.end);
  const Drop drop = drop_of(plan.load.diode, plan.load.chip_microamps);
  add(drop.least);
  add(drop.most);
  return known;
}

template <typename Set>
Set beyond(const Set& named, const Set& known) {
  Set more;
  for (const auto& one : named)
    if (!known.contains(one)) more.insert(one);
  return more;
}

/// The plan without the cautions before it and without the other parts after it, which have rows of
/// their own.
std::string own_words(const std::string& plan) {
  const std::string text = flowing(plan);
  const std::size_t begin = text.find("do not replace them."), end = text.find("Or another part");
  REQUIRE(begin != std::string::npos);
  return text.substr(begin, end - begin);
}

}  // namespace

TEST_CASE("no output for any part names a pin that its row does not have") {
  const Workbench bench;
  bench.put("dump.bin", at_64_bytes());
  std::size_t named = 0;
  for (const Part& part : known_parts()) {
    const std::set<int> known = pins_of(part);
    const std::string plan = own_words(bench.run({"plan", "--part", part.name}).out);
    std::string chip = flowing(bench.run({"chips", part.name}).out);
    // What it replaces, and is replaced by, has rows of its own.
    const std::size_t others =
        std::min(chip.find("It can take the place"), chip.find("Its place can be taken"));
    if (others != std::string::npos) chip.erase(others, chip.find("Its pins") - others);
    const std::string shown = flowing(bench.run({"show", "dump.bin", "--part", part.name}).out);
    for (const std::string& text : {plan, chip, shown}) {
      INFO(part.name << ": " << text);
      const std::set<int> pins = pins_named(text);
      CHECK(beyond(pins, known) == std::set<int>{});
      named += pins.size();
    }
  }
  CHECK(named > 60);
}

TEST_CASE("no plan for any part names a voltage or a diode that its row does not have") {
  const Workbench bench;
  for (const Part& part : known_parts()) {
    const std::string plan = own_words(bench.run({"plan", "--part", part.name}).out);
    INFO(part.name << ": " << plan);
    CHECK(beyond(volts_named(plan), volts_of(usual_plan({2031, 5, 14, 0, 0, 0}, part))) ==
          std::set<std::string>{});
    if (!part.cell_input) CHECK(plan.find("diode") == std::string::npos);
    if (!part.cell_input) CHECK(pins_named(plan).empty());
  }
}

TEST_CASE("the early part is fed at pin 24 behind a diode, and its plan never names pin 20") {
  // MC146818A: supply 3 to 6 V; that pin 20 is CKFS and 24 VDD is from memory.
  const Workbench bench;
  for (const char* part : {"MC146818", "MC146818A", "HD146818"}) {
    const Ran ran = bench.run({"plan", "--part", part});
    const std::string plan = own_words(ran.out);
    CHECK(ran.code == 0);
    CHECK(pins_named(plan) == std::set<int>{12, 24});
    CHECK(plan.find("3.0 to 6.0 V") != std::string::npos);
    CHECK(plan.find("a diode and a resistor of the board") != std::string::npos);
  }
  // A lithium coin cell behind the diode is too low, and without one it would be charged.
  const Ran low = bench.run({"plan", "--part", "MC146818A", "--cell", "2032"});
  CHECK(low.code == 1);
  CHECK(flowing(low.out).find("Too low: even a fresh cell") != std::string::npos);
  const Ran bare = bench.run({"plan", "--part", "MC146818A", "--diode", "none"});
  CHECK(bare.code == 1);
  CHECK(flowing(bare.out).find("Never so: this part does not switch over by itself") !=
        std::string::npos);
}

TEST_CASE("packs of 3.6, 4.5 and 6 V are right where the part takes them, and only there") {
  const Workbench bench;
  for (const char* pack : {"3.6V-NICKEL", "4.5V-ALKALINE", "6V-LITHIUM"}) {
    INFO(pack);
    CHECK(bench.run({"plan", "--part", "MC146818A", "--cell", pack}).code == 0);
    CHECK(bench.run({"plan", "--part", "DS12887", "--cell", pack}).code == 1);
  }
}

TEST_CASE("a part whose pins nobody knows gets no plan, and says so") {
  const Workbench bench;
  for (const Part& part : known_parts()) {
    if (part.cell_input || part.trickle_charger) continue;
    const Ran ran = bench.run({"plan", "--part", part.name});
    INFO(part.name);
    CHECK(ran.code == 1);
    CHECK(flowing(ran.out).find("not known here: no work on its cell is planned") !=
          std::string::npos);
  }
}
