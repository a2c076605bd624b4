#include "judge/probe.h"

#include <algorithm>

namespace rtcmend {

Probe::Probe(const Check& check, const Image& image)
    : check_(check), stored_at_(stored_addresses(check)) {
  for (const Covered& covered : check.over) {
    if (covered.when) conditions_.push_back(covered.when->at);
    if (covered.when && !covered.when->holds(image).value_or(true)) continue;
    const Addresses some = to_addresses(covered.range);
    covered_.insert(covered_.end(), some.begin(), some.end());
  }
  if (check.when) conditions_.push_back(check.when->at);
  for (const Address at : covered_) bytes_.push_back(image[at]);
  for (const Address at : stored_at_) stored_.push_back(image[at]);
}

bool Probe::decides(Address at) const {
  return std::find(conditions_.begin(), conditions_.end(), at) != conditions_.end();
}

bool Probe::holds_with(std::vector<Change> changes) const {
  std::vector<std::uint8_t> bytes = bytes_, stored = stored_;
  for (const auto& [at, value] : changes) {
    if (decides(at)) return true;
    for (std::size_t i = 0; i < covered_.size(); ++i)
      if (covered_[i] == at) bytes[i] = value;
    for (std::size_t i = 0; i < stored_at_.size(); ++i)
      if (stored_at_[i] == at) stored[i] = value;
  }
  const unsigned computed = compute(check_.rule, bytes);
  if (stored.size() == 1) return computed == stored[0];
  const bool low_first = check_.order == Order::low_first;
  const unsigned low = low_first ? stored[0] : stored[1], high = low_first ? stored[1] : stored[0];
  return computed == (high << 8 | low);
}

bool Probe::holds_with(Address at, std::uint8_t value) const {
  return holds_with({{at, value}});
}

bool Probe::holds_with(Address first, std::uint8_t first_value, Address second,
                       std::uint8_t second_value) const {
  return holds_with({{first, first_value}, {second, second_value}});
}

}  // namespace rtcmend
