#include "repair/probe.h"

#include <numeric>

namespace rtcmend {

Probe::Probe(const Check& check, const Image& image) : image_(image), gap_(check, image) {
  if (check.when) decides_.set(check.when->at);
  for (const Covered& covered : check.over)
    if (covered.when) decides_.set(covered.when->at);
}

bool Probe::holds_with(std::span<const Patch> patches) const {
  std::uint16_t gap = gap_.now();
  for (const auto& [at, from, to] : patches) {
    if (decides_[at]) return true;
    gap = gap_.moved(gap, at, from, to);
  }
  return gap == 0;
}

std::vector<std::uint8_t> Probe::values(Address at) const {
  if (!decides_[at]) return gap_.closing(at, image_[at]);
  std::vector<std::uint8_t> all(256);
  std::iota(all.begin(), all.end(), std::uint8_t{0});
  return all;
}

}  // namespace rtcmend
