#pragma once

#include <cstdlib>
#include <fmt/format.h>
#include <string>
#include <vector>

#include "discover/session.h"
#include "support/unknown_firmware.h"

namespace rtcmend::test {

/// How many firmwares the figures are taken from: RTCMEND_FIRMWARES, 500 when it is not set.
inline std::uint32_t firmwares() {
  const char* given = std::getenv("RTCMEND_FIRMWARES");
  return given != nullptr ? static_cast<std::uint32_t>(std::atoi(given)) : 500;
}

inline UnknownMachine machine_number(std::uint32_t number) {
  Dice dice(number);
  return {draw_firmware(dice), number};
}

/// Small changes: three idle dumps, then each setting through its values twice.
inline std::vector<Step> one_at_a_time(UnknownMachine& machine) {
  std::vector<Step> steps;
  const auto take = [&](const std::string& setting, const std::string& value,
                        const std::vector<std::size_t>& values) {
    steps.push_back({setting, value, fmt::format("dump{}", steps.size()), machine.start(values)});
  };
  for (int i = 0; i < 3; ++i) take("", "", machine.rest());
  const auto& settings = machine.firmware().settings;
  for (std::size_t s = 0; s < settings.size(); ++s) {
    for (int round = 0; round < 2; ++round) {
      for (std::size_t v = 0; v < settings[s].codes.size(); ++v) {
        auto values = machine.rest();
        values[s] = v;
        take(settings[s].name, fmt::format("choice {}", static_cast<char>('A' + v)), values);
      }
    }
  }
  return steps;
}

/// Everything at once: of every setting another value than in the dump before.
inline std::vector<Image> everything(UnknownMachine& machine, std::size_t count) {
  std::vector<Image> images;
  const auto& settings = machine.firmware().settings;
  for (std::size_t i = 0; i < count; ++i) {
    std::vector<std::size_t> values;
    for (std::size_t s = 0; s < settings.size(); ++s)
      values.push_back((i * (s % 3 + 1) + i / settings[s].codes.size()) % settings[s].codes.size());
    images.push_back(machine.start(values));
  }
  return images;
}

inline std::vector<Image> at_random(UnknownMachine& machine, std::size_t count) {
  std::vector<Image> images;
  for (std::size_t i = 0; i < count; ++i) images.push_back(machine.start_anyhow());
  return images;
}

inline std::vector<Image> images_of(const std::vector<Step>& steps) {
  std::vector<Image> images;
  for (const Step& step : steps) images.push_back(step.image);
  return images;
}

}  // namespace rtcmend::test
