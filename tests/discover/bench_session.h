#pragma once

#include <vector>

#include "discover/session.h"
#include "support/invented_firmware.h"

namespace rtcmend::test {

/// What docs/unknown-machine.md asks of the person at the bench: three dumps with nothing changed,
/// then each setting through all its values and through all of them once more, then back to where
/// it was.
inline std::vector<Step> sit_at_the_bench(InventedMachine& machine) {
  std::vector<Step> steps;
  const auto take = [&](const std::string& setting, const std::string& value) {
    steps.push_back(
        {setting, value, "dump" + std::to_string(steps.size()), machine.start_and_dump()});
  };
  machine.reset();
  for (int i = 0; i < 3; ++i) take("", "");
  for (std::size_t k = 0; k < machine.firmware().knobs.size(); ++k) {
    const Knob& knob = machine.firmware().knobs[k];
    for (int round = 0; round < 2; ++round) {
      for (std::size_t value = 0; value < knob.values.size(); ++value) {
        machine.set(k, value);
        take(knob.name, knob.values[value]);
      }
    }
    machine.reset();
  }
  return steps;
}

}  // namespace rtcmend::test
