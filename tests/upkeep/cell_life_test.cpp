#include "upkeep/cell_life.h"

#include <catch2/catch.hpp>
#include <limits>

#include "base/error.h"

using namespace rtcmend;

TEST_CASE("a 2032 at half a microampere lasts 33.9 years by charge and ten by shelf life") {
  // 225 mAh, 500 nA, 1 % a year: 225 / 0.000757 h (arithmetic over LiCoin and DS12885 figures).
  const CellLife life = cell_life({.cell = cell_named("2032")});
  CHECK(life.self_discharge_microamps == Approx(0.257).margin(0.0005));
  CHECK(life.charge_years == Approx(33.9).margin(0.05));
  CHECK(life.years == 10);
  CHECK(life.limited_by == Limit::shelf);
}

TEST_CASE("the same cell at 5 uA is empty after 4.9 years") {
  const CellLife life = cell_life({.cell = cell_named("CR2032"), .chip_microamps = 5});
  CHECK(life.charge_years == Approx(4.9).margin(0.05));
  CHECK(life.years == Approx(4.9).margin(0.05));
  CHECK(life.limited_by == Limit::charge);
  CHECK(life.least_years < life.years);
  CHECK(life.most_years > life.years);
}

TEST_CASE("a machine that is on half of the time halves the drain, not the self-discharge") {
  const CellLife life =
      cell_life({.cell = cell_named("2032"), .chip_microamps = 5, .powered_share = 0.5});
  CHECK(life.drain_microamps == Approx(2.5));
  CHECK(life.self_discharge_microamps == Approx(0.257).margin(0.0005));
}

TEST_CASE("loads that make no sense are refused") {
  const Cell cell = cell_named("2032");
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS_AS(cell_life({.cell = cell, .chip_microamps = -1}), Error);
  CHECK_THROWS_AS(cell_life({.cell = cell, .chip_microamps = nan}), Error);
  CHECK_THROWS_AS(cell_life({.cell = cell, .chip_microamps = 1001}), Error);
  CHECK(cell_life({.cell = cell, .chip_microamps = 1000}).limited_by == Limit::charge);
  CHECK_THROWS_AS(cell_life({.cell = cell, .celsius = 200}), Error);
  CHECK_THROWS_AS(cell_life({.cell = cell, .powered_share = 1.5}), Error);
  CHECK_THROWS_AS(cell_of_capacity(nan), Error);
  CHECK_THROWS_AS(cell_of_capacity(-225), Error);
  CHECK_THROWS_AS(cell_named("9999"), Error);
  CHECK_THROWS_AS(diode_named("zener"), Error);
}

TEST_CASE("the chip's limits judge the cell: 1.5 V never works, a diode costs its share") {
  // Limits 2.5 to 4.0 V: DS12885, the upper one from memory.
  Cell alkaline = cell_named("2032");
  alkaline.nominal_volts = 1.5;
  CHECK_FALSE(cell_voltage({.cell = alkaline}).works_fresh);
  const CellVoltage plain = cell_voltage({.cell = cell_named("2032")});
  CHECK(plain.works_fresh);
  CHECK_FALSE(plain.works_to_the_end);
  const CellVoltage dropped = cell_voltage({.cell = cell_named("2032"), .diode = Diode::silicon});
  CHECK(dropped.fresh_least == Approx(2.6));
  CHECK(dropped.end == Approx(1.6));
}
