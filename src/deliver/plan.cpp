#include "deliver/plan.h"

#include <algorithm>

#include "base/error.h"
#include "chip/clock.h"
#include "chip/registers.h"

namespace rtcmend {

namespace {

// Register B (DS12885): DM and 24/12.
constexpr int binary_bit = 0x04, hours_24_bit = 0x02;

bool contains(const Addresses& addresses, Address at) {
  return std::find(addresses.begin(), addresses.end(), at) != addresses.end();
}

Addresses check_bytes(const std::vector<Check>& checks) {
  Addresses all;
  for (const Check& check : checks)
    for (const Address at : stored_addresses(check)) all.push_back(at);
  return all;
}

bool covered(const std::vector<Check>& checks, Address at) {
  return std::any_of(checks.begin(), checks.end(), [at](const Check& check) {
    return contains(covered_addresses(check), at) || contains(stored_addresses(check), at);
  });
}

/// A century byte that follows the clock must not be part of a check, or the check would break.
std::optional<Address> free_century(const Parcel& parcel) {
  if (!parcel.century || !parcel.image.contains(*parcel.century)) return std::nullopt;
  if (covered(parcel.checks, *parcel.century)) return std::nullopt;
  return parcel.century;
}

/// The bytes of a check come behind all others, and one of them behind that.
void move_to_end(Addresses& order, const Check& check, Address very_last) {
  const Addresses stored = stored_addresses(check);
  std::stable_partition(order.begin(), order.end(),
                        [&](Address at) { return !contains(stored, at); });
  std::stable_partition(order.begin(), order.end(), [&](Address at) { return at != very_last; });
}

std::optional<int> century_value(const Image& image, std::optional<Address> at) {
  const auto byte = at ? image.at(*at) : std::nullopt;
  if (byte == 0x19) return 19;
  if (byte == 0x20) return 20;
  return std::nullopt;
}

/// The clock bytes of an image, in another way of counting.
void count_in(const ClockMode& mode, const std::optional<DateTime>& time, Image& image) {
  const auto a = image.at(reg::a);
  if (time && can_be_set(*time)) start_clock(*time, mode, image);
  if (a) image.set(reg::a, *a);
  const int b = image.at(reg::b).value_or(usual_b) & ~(binary_bit | hours_24_bit);
  image.set(reg::b, static_cast<std::uint8_t>(b | (mode.binary ? binary_bit : 0) |
                                              (mode.hours_24 ? hours_24_bit : 0)));
}

/// The clock and control bytes as they may be written: the oscillator on, no SET.
void make_writable(Image& image, const std::vector<int>& running_dividers) {
  const auto a = image.at(reg::a).value_or(usual_a);
  const auto b = image.at(reg::b).value_or(usual_b);
  const int divider = a >> 4 & 7;
  // DV = 010 (DS12885), unless it is one with which this part counts from its own crystal.
  if (std::find(running_dividers.begin(), running_dividers.end(), divider) ==
      running_dividers.end())
    image.set(reg::a, static_cast<std::uint8_t>((a & 0x0F) | 0x20));
  else
    image.set(reg::a, a & 0x7F);
  image.set(reg::b, b & 0x7F);
  for (Address at = reg::seconds; at <= reg::year; ++at)
    if (!image.known(at)) image.set(at, 0);
}

}  // namespace

std::optional<ClockMode> other_mode(const Parcel& parcel) {
  if (!parcel.of_a_pc || parcel.clock == ClockPolicy::image) return std::nullopt;
  const auto own = mode_of(parcel.image);
  if (!own || *own == ClockMode{}) return std::nullopt;
  return ClockMode{};
}

WritePlan plan_writing(const Parcel& parcel) {
  WritePlan plan;
  plan.image = parcel.image;
  plan.century = free_century(parcel);
  const auto time = read_clock(parcel.image, century_value(parcel.image, plan.century)).time;
  plan.has_time = time.has_value();
  if (parcel.clock == ClockPolicy::image && !plan.has_time)
    refuse_choice(
        "clock", "the image holds no date and time that a clock could have",
        Advice{{"Let the program ask for the time", Act{Act::Kind::choose, "clock", "ask"}},
               {"Or set the clock of the image first", Act{Act::Kind::set_clock, {}, {}}}});
  if (const auto mode = other_mode(parcel)) count_in(*mode, time, plan.image);
  make_writable(plan.image, parcel.running_dividers);
  const Addresses last = check_bytes(parcel.checks);
  for (Address at = Image::ram_start; at < parcel.image.size(); ++at) {
    if (!parcel.image.known(at))
      plan.left_alone.push_back(at);
    else if (at != plan.century && !contains(last, at))
      plan.order.push_back(at);
  }
  for (const Address at : last)
    if (!contains(plan.left_alone, at)) plan.order.push_back(at);
  plan.spoil = choose_spoil(parcel, plan.order);
  if (plan.spoil) move_to_end(plan.order, parcel.checks[plan.spoil->check], plan.spoil->at);
  if (plan.century && contains(plan.left_alone, *plan.century)) plan.century.reset();
  if (plan.order.empty()) refuse("DUMP", "there is no RAM byte to write");
  return plan;
}

}  // namespace rtcmend
