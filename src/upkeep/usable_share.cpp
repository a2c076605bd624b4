// How much of a cell's charge lies above a voltage.
#include <algorithm>
#include <span>

#include "upkeep/cell.h"

namespace rtcmend {

namespace {

/// A point of a discharge: at this share of the nominal voltage so much of the charge is gone.
struct Point {
  double volts, gone;
};

// Typical shapes at microamperes, from memory: a lithium coin cell is flat at 2.9 to 3.0 V and
// falls at its end; thionyl chloride is flatter still; alkaline falls all the way; nickel starts
// above its nominal voltage.
constexpr Point coin[] = {{1.0, 0.0}, {0.967, 0.8}, {0.933, 0.92}, {0.834, 1.0}};
constexpr Point thionyl[] = {{1.0, 0.0}, {0.97, 0.9}, {0.9, 1.0}};
constexpr Point alkaline[] = {{1.0, 0.0}, {0.9, 0.25}, {0.8, 0.6}, {0.6, 1.0}};
constexpr Point nickel[] = {{1.08, 0.0}, {1.0, 0.4}, {0.972, 0.7}, {0.92, 0.9}, {0.833, 1.0}};

std::span<const Point> shape(Chemistry chemistry) {
  switch (chemistry) {
    case Chemistry::lithium_thionyl:
      return thionyl;
    case Chemistry::alkaline:
      return alkaline;
    case Chemistry::nickel:
      return nickel;
    case Chemistry::lithium_coin:
      break;
  }
  return coin;
}

}  // namespace

double usable_share(const Cell& cell, double volts) {
  const auto points = shape(cell.chemistry);
  const double level = volts / cell.nominal_volts;
  if (level >= points.front().volts) return points.front().gone;
  for (std::size_t i = 1; i < points.size(); ++i) {
    const Point &above = points[i - 1], &below = points[i];
    if (level >= below.volts)
      return above.gone +
             (below.gone - above.gone) * (above.volts - level) / (above.volts - below.volts);
  }
  return points.back().gone;
}

}  // namespace rtcmend
