#include "judge/standing.h"

namespace rtcmend {

std::string_view name(Standing::Dump dump) {
  return dump == Standing::Dump::trusted ? "trusted" : "misread";
}

std::string_view name(Standing::Settings settings) {
  switch (settings) {
    case Standing::Settings::proven:
      return "proven";
    case Standing::Settings::unproven:
      return "unproven";
    case Standing::Settings::broken:
      break;
  }
  return "broken";
}

std::string_view name(Standing::Clock clock) {
  switch (clock) {
    case Standing::Clock::right:
      return "right";
    case Standing::Clock::unset:
      return "unset";
    case Standing::Clock::stopped:
      break;
  }
  return "stopped";
}

Standing standing_of(const std::vector<Finding>& findings) {
  Standing standing;
  for (const Finding& finding : findings) standing = with_effect(standing, finding.effect());
  return standing;
}

namespace {

std::string_view clock_clause(Standing::Clock clock) {
  switch (clock) {
    case Standing::Clock::right:
      return "the clock is right";
    case Standing::Clock::unset:
      return "the clock must be set";
    case Standing::Clock::stopped:
      break;
  }
  return "the clock stands still and must be set";
}

}  // namespace

std::string verdict_sentence(const Standing& standing) {
  if (standing.dump == Standing::Dump::misread)
    return "Misread: these are not the chip's bytes. Read the chip again.";
  if (standing.is_good()) return "Sound: settings proven, clock right.";
  std::string settings = "Settings " + std::string(name(standing.settings));
  return settings + "; " + std::string(clock_clause(standing.clock)) + ".";
}

}  // namespace rtcmend
