#include "deliver/runs.h"

#include <algorithm>
#include <variant>

#include "base/error.h"
#include "check/crc.h"
#include "chip/registers.h"

namespace rtcmend {

namespace {

constexpr std::uint8_t set_bit = 0x80;  // register B: no update while the time is half written
constexpr std::uint8_t nmi_off = 0x80;  // bit 7 of port 70h (RBIL61)

/// What CRC-16/IBM-3740 was before it took in a byte 00h.
std::uint16_t before_zero(std::uint16_t crc) {
  for (int bit = 0; bit < 8; ++bit)
    crc = crc & 1 ? static_cast<std::uint16_t>((crc ^ 0x1021) >> 1 | 0x8000)
                  : static_cast<std::uint16_t>(crc >> 1);
  return crc;
}

std::vector<Run> consecutive(const Addresses& order, const Image& image) {
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

/// Takes out of `order` what is in `some`, and returns it.
Addresses taken_out(Addresses& order, const Addresses& some) {
  const auto rest = std::stable_partition(order.begin(), order.end(), [&](Address at) {
    return std::find(some.begin(), some.end(), at) == some.end();
  });
  Addresses taken(rest, order.end());
  order.erase(rest, order.end());
  return taken;
}

/// Nothing where the spoiled byte is no balance byte, or its stretch is not written in one run.
std::optional<Balanced> balanced(const Parcel& parcel, const WritePlan& plan,
                                 const std::vector<Run>& runs) {
  if (!plan.spoil) return std::nullopt;
  const Check& check = parcel.checks[plan.spoil->check];
  if (!std::holds_alternative<BalanceRule>(check.rule) || check.over.size() != 1)
    return std::nullopt;
  const Range over = check.over.front().range;
  for (std::size_t i = 0; i < runs.size(); ++i)
    if (runs[i].first == over.first && runs[i].bytes.size() == over.size())
      return Balanced{i, plan.image[plan.spoil->at]};
  return std::nullopt;
}

}  // namespace

Runs runs_of(const Parcel& parcel, const WritePlan& plan) {
  if (parcel.clock == ClockPolicy::ask)
    refuse_choice("clock", "this way is too small to ask for the time",
                  Advice{{"Keep the clock, and use the DOS commands DATE and TIME afterwards",
                          Act{Act::Kind::choose, "clock", "keep"}}});
  Runs runs;
  if (plan.spoil) runs.spoil = {{plan.spoil->at, {plan.spoil->value}}};
  Addresses steady = with_century(plan);
  const Addresses unsteady = taken_out(steady, parcel.unsteady);
  runs.ram = consecutive(steady, plan.image);
  runs.balanced = balanced(parcel, plan, runs.ram);
  const bool whole = parcel.clock == ClockPolicy::image;
  runs.clock = whole ? clock_runs(plan.image) : std::vector<Run>{{reg::a, {plan.image[reg::a]}}};
  runs.clock = joined({runs.clock, consecutive(unsteady, plan.image)});
  if (whole) runs.last = {{reg::b, {plan.image[reg::b]}}};
  return runs;
}

std::vector<Run> joined(std::initializer_list<std::vector<Run>> lists) {
  std::vector<Run> all;
  for (const auto& list : lists) all.insert(all.end(), list.begin(), list.end());
  return all;
}

void append_runs(std::vector<std::uint8_t>& bytes, const std::vector<Run>& runs) {
  for (const Run& run : runs) {
    bytes.push_back(run.first | nmi_off);
    bytes.push_back(static_cast<std::uint8_t>(run.bytes.size()));
    bytes.insert(bytes.end(), run.bytes.begin(), run.bytes.end());
  }
}

std::vector<std::uint8_t> closing_bytes(std::span<const std::uint8_t> typed) {
  const std::uint16_t now = Crc(crc_models::ibm_3740)(typed);
  const auto pair = static_cast<std::uint16_t>(now ^ before_zero(before_zero(writing_crc)));
  return {static_cast<std::uint8_t>(pair >> 8), static_cast<std::uint8_t>(pair)};
}

}  // namespace rtcmend
