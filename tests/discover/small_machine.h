#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

#include "discover/session.h"

namespace rtcmend::test {

/// A machine made up for one question: what its firmware stores for its settings and the number of
/// its start, over zero bytes and a running clock.
struct SmallMachine {
  using Bytes = std::vector<std::uint8_t>;
  using Settings = std::map<std::string, int>;
  std::size_t size = Image::small_size;
  std::function<void(Bytes&, const Settings&, int start)> store;

  Image dump(const Settings& settings, int start) const {
    Bytes bytes(size, 0);
    const std::uint8_t clock[] = {0x10, 0,    0x20, 0,    0x09, 0, 0x05,
                                  0x15, 0x05, 0x97, 0x26, 0x02, 0, 0x80};
    std::copy(std::begin(clock), std::end(clock), bytes.begin());
    bytes[0x02] = static_cast<std::uint8_t>(start % 10);
    store(bytes, settings, start);
    return Image(bytes);
  }
};

/// What the bench protocol asks for: three idle dumps, then each setting through its values twice,
/// with all others at rest.
inline std::vector<Step> session_of(
    const SmallMachine& machine,
    const std::vector<std::pair<std::string, std::vector<int>>>& settings,
    const SmallMachine::Settings& rest = {}) {
  std::vector<Step> steps;
  const auto take = [&](const std::string& setting, int value) {
    SmallMachine::Settings now = rest;
    for (const auto& [name, values] : settings) now.try_emplace(name, 0);
    if (!setting.empty()) now[setting] = value;
    const int start = static_cast<int>(steps.size());
    steps.push_back({setting, setting.empty() ? "" : std::to_string(value),
                     "dump" + std::to_string(start), machine.dump(now, start)});
  };
  for (int i = 0; i < 3; ++i) take("", 0);
  for (const auto& [name, values] : settings)
    for (int round = 0; round < 2; ++round)
      for (const int value : values) take(name, value);
  return steps;
}

/// The bytes from `first` to the one before `end`, added up.
inline int sum(const SmallMachine::Bytes& bytes, int first, int end) {
  int total = 0;
  for (int at = first; at < end; ++at) total += bytes[static_cast<std::size_t>(at)];
  return total;
}

inline std::uint8_t byte(int value) {
  return static_cast<std::uint8_t>(value & 0xFF);
}

}  // namespace rtcmend::test
