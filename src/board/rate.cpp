#include "board/rate.h"

#include <cmath>

namespace rtcmend {

namespace {

constexpr std::size_t fewest = 10;
/// So many standard deviations off the line: held up on the way.
constexpr double far = 3;

struct Place {
  double count, at;  ///< seconds of the chip, seconds of this computer
};

struct Fit {
  double mean_count = 0, mean_at = 0, slope = 1, spread = 0, deviation = 0;
  double off(const Place& place) const {
    return place.at - mean_at - slope * (place.count - mean_count);
  }
};

/// The seconds counted by the time between them: no crystal is off by half a second in the few
/// that are lost.
std::vector<Place> places_of(const std::vector<ClockEdge>& edges) {
  std::vector<Place> places;
  double count = 0, before = 0;
  for (const ClockEdge& edge : edges) {
    const double at = static_cast<double>((edge.at - edges.front().at).count()) * 1e-6;
    count += std::round(at - before);
    before = at;
    places.push_back({count, at});
  }
  return places;
}

Fit fit_of(const std::vector<Place>& places) {
  Fit fit;
  const auto n = static_cast<double>(places.size());
  for (const Place& place : places) {
    fit.mean_count += place.count / n;
    fit.mean_at += place.at / n;
  }
  double along = 0;
  for (const Place& place : places) {
    const double away = place.count - fit.mean_count;
    fit.spread += away * away;
    along += away * (place.at - fit.mean_at);
  }
  fit.slope = along / fit.spread;
  double squares = 0;
  for (const Place& place : places) squares += fit.off(place) * fit.off(place);
  fit.deviation = std::sqrt(squares / (n - 2));
  return fit;
}

std::vector<Place> without_late(const std::vector<Place>& places, const Fit& fit) {
  std::vector<Place> kept;
  for (const Place& place : places)
    if (std::abs(fit.off(place)) <= far * fit.deviation + 1e-9) kept.push_back(place);
  return kept;
}

}  // namespace

std::optional<ClockRate> clock_rate(const std::vector<ClockEdge>& edges) {
  if (edges.size() < fewest) return std::nullopt;
  const auto all = places_of(edges);
  const auto places = without_late(all, fit_of(all));
  if (places.size() < fewest) return std::nullopt;
  const Fit fit = fit_of(places);
  return ClockRate{(1 / fit.slope - 1) * 1e6, 2e6 * fit.deviation / std::sqrt(fit.spread),
                   places.size(), places.back().at - places.front().at, fit.deviation * 1e6};
}

}  // namespace rtcmend
