#include <algorithm>
#include <fmt/format.h>
#include <iterator>

#include "base/error.h"
#include "base/text.h"
#include "check/check.h"

namespace rtcmend {

namespace {

void store(const Check& check, std::uint16_t value, Image& image) {
  const auto low = static_cast<std::uint8_t>(value & 0xFF);
  const auto high = static_cast<std::uint8_t>(value >> 8);
  const Addresses at = stored_addresses(check);
  if (at.size() == 1) {
    image.set(at[0], low);
    return;
  }
  const bool low_first = check.order == Order::low_first;
  image.set(at[0], low_first ? low : high);
  image.set(at[1], low_first ? high : low);
}

[[noreturn]] void refuse_unknown(const CheckResult& result) {
  const Addresses stored = stored_addresses(*result.check);
  Addresses missing;
  std::ranges::set_difference(result.unknown, stored, std::back_inserter(missing));
  refuse("check " + result.check->id,
         fmt::format("cannot be computed, because what it covers is not all known: {}",
                     to_prose(missing)),
         "start from a dump that holds these bytes, or give them a value");
}

// Whether the value of a check depends on this byte.
bool reads(const Check& check, Address at) {
  const auto asks = [at](const std::optional<Condition>& when) { return when && when->at == at; };
  return asks(check.when) || std::ranges::any_of(check.over, [&](const Covered& covered) {
           return covered.range.contains(at) || asks(covered.when);
         });
}

using Indexes = std::vector<std::size_t>;

// For each check the checks that must be sealed before it.
std::vector<Indexes> prerequisites(const std::vector<Check>& checks) {
  std::vector<Indexes> before(checks.size());
  for (std::size_t first = 0; first < checks.size(); ++first) {
    const Addresses stored = stored_addresses(checks[first]);
    for (std::size_t later = 0; later < checks.size(); ++later)
      if (std::ranges::any_of(stored, [&](Address at) { return reads(checks[later], at); }))
        before[later].push_back(first);
  }
  return before;
}

// `stuck`: checks that each wait for another stuck one. Whoever walks from one to what it waits for
// ends up going round the circle.
[[noreturn]] void refuse_circle(const std::vector<Check>& checks,
                                const std::vector<Indexes>& before, const std::vector<bool>& sealed,
                                const std::string& where) {
  const auto waits_for = [&](std::size_t check) {
    return *std::ranges::find_if(before[check], [&](std::size_t other) { return !sealed[other]; });
  };
  auto at = static_cast<std::size_t>(std::ranges::find(sealed, false) - sealed.begin());
  for (std::size_t step = 0; step < checks.size(); ++step) at = waits_for(at);

  std::vector<std::string> ids{checks[at].id};
  for (std::size_t next = waits_for(at); next != at; next = waits_for(next))
    ids.push_back(checks[next].id);
  if (ids.size() == 1)
    refuse(where, fmt::format("the check {} covers its own stored bytes", ids[0]));
  refuse(where,
         fmt::format("the checks {} cover each other's stored bytes in a circle, so that none "
                     "can be sealed first",
                     join(ids, ", ")));
}

}  // namespace

void seal_one(const Check& check, Image& image) {
  const CheckResult result = evaluate(check, image);
  if (!result.counts) return;
  if (!result.computed) refuse_unknown(result);
  store(check, *result.computed, image);
}

std::vector<std::size_t> sealing_order(const std::vector<Check>& checks, const std::string& where) {
  const std::vector<Indexes> before = prerequisites(checks);
  std::vector<bool> sealed(checks.size(), false);
  const auto ready = [&](std::size_t check) {
    return !sealed[check] &&
           std::ranges::all_of(before[check], [&](std::size_t other) { return sealed[other]; });
  };

  Indexes order;
  while (order.size() < checks.size()) {
    std::size_t next = 0;
    while (next < checks.size() && !ready(next)) ++next;
    if (next == checks.size()) refuse_circle(checks, before, sealed, where);
    sealed[next] = true;
    order.push_back(next);
  }
  return order;
}

}  // namespace rtcmend
