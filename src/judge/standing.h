#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "judge/finding.h"

namespace rtcmend {

/// The three respects in which an image is judged, each by itself: a dump may be read rightly and
/// its settings proven while its clock stands.
struct Standing {
  enum class Dump { trusted, misread };
  enum class Settings {
    proven,    ///< a check holds on data that is not blank
    unproven,  ///< nothing fails, and nothing proves them
    broken
  };
  enum class Clock { right, unset, stopped };

  Dump dump = Dump::trusted;
  Settings settings = Settings::proven;
  Clock clock = Clock::right;

  /// All three are good.
  constexpr bool is_good() const {
    return dump == Dump::trusted && settings == Settings::proven && clock == Clock::right;
  }
  friend bool operator==(const Standing&, const Standing&) = default;
};

std::string_view name(Standing::Dump dump);
std::string_view name(Standing::Settings settings);
std::string_view name(Standing::Clock clock);

/// The standing with one more effect: what is worse stays.
constexpr Standing with_effect(Standing standing, Effect effect) {
  switch (effect) {
    case Effect::none:
    case Effect::doubted:
      break;
    case Effect::misread:
      standing.dump = Standing::Dump::misread;
      break;
    case Effect::broken:
      standing.settings = Standing::Settings::broken;
      break;
    case Effect::unproven:
      if (standing.settings == Standing::Settings::proven)
        standing.settings = Standing::Settings::unproven;
      break;
    case Effect::unset:
      if (standing.clock == Standing::Clock::right) standing.clock = Standing::Clock::unset;
      break;
    case Effect::stopped:
      standing.clock = Standing::Clock::stopped;
      break;
  }
  return standing;
}

/// What findings come to together.
Standing standing_of(const std::vector<Finding>& findings);

/// The standing as a sentence: "Settings proven; the clock must be set."
std::string verdict_sentence(const Standing& standing);

}  // namespace rtcmend
