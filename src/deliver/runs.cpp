#include "deliver/runs.h"

#include <algorithm>

#include "base/error.h"
#include "chip/registers.h"

namespace rtcmend {

namespace {

constexpr std::uint8_t set_bit = 0x80;  // register B: no update while the time is half written

std::vector<Run> joined(const Addresses& order, const Image& image) {
  std::vector<Run> runs;
  for (const Address at : order) {
    const bool follows = !runs.empty() && runs.back().first + runs.back().bytes.size() == at;
    if (!follows) runs.push_back({at, {}});
    runs.back().bytes.push_back(image[at]);
  }
  return runs;
}

std::vector<Run> clock_runs(const Image& image) {
  Run time{reg::seconds, {}};
  for (Address at = reg::seconds; at <= reg::a; ++at) time.bytes.push_back(image[at]);
  return {{reg::b, {static_cast<std::uint8_t>(image[reg::b] | set_bit)}}, time};
}

/// The century byte in its place among the others, which ascend up to the check bytes.
Addresses with_century(const WritePlan& plan) {
  Addresses order = plan.order;
  if (!plan.century) return order;
  const auto behind =
      std::find_if(order.begin(), order.end(), [&](Address at) { return at > *plan.century; });
  order.insert(behind, *plan.century);
  return order;
}

}  // namespace

Runs runs_of(const Parcel& parcel, const WritePlan& plan) {
  if (parcel.clock == ClockPolicy::ask)
    refuse_choice("clock", "this way is too small to ask for the time",
           Advice{{"Keep the clock, and use the DOS commands DATE and TIME afterwards",
                   Act{Act::Kind::choose, "clock", "keep"}}});
  Runs runs;
  runs.ram = joined(with_century(plan), plan.image);
  if (parcel.clock != ClockPolicy::image) return runs;
  runs.clock = clock_runs(plan.image);
  runs.last = {{reg::b, {plan.image[reg::b]}}};
  return runs;
}

}  // namespace rtcmend
