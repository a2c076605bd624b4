#include "judge/compare.h"

#include <algorithm>
#include <array>
#include <fmt/format.h>

#include "base/error.h"
#include "check/check.h"
#include "chip/clock.h"
#include "chip/registers.h"
#include "layout/owners.h"
#include "layout/privacy.h"

namespace rtcmend {

namespace {

/// Why each byte that differs does not matter; empty = it matters, or does not differ.
using Reasons = std::array<std::string, Image::large_size>;

std::uint8_t volatile_bits(const Layout& layout, Address at) {
  std::uint8_t bits = 0;
  for (const Field* field : layout.fields_at(at))
    if (field->is_volatile) bits = static_cast<std::uint8_t>(bits | bits_of(*field, at));
  return bits;
}

/// The bits that differ, as they may be told; all of them when one side is unknown.
std::uint8_t differing_bits(const Image& wanted, const Image& found, const Layout& layout,
                            Address at) {
  if (!wanted.known(at) || !found.known(at)) return 0xFF;
  return told_bits(layout, at, static_cast<std::uint8_t>(wanted[at] ^ found[at]));
}

/// What one byte alone says about why its difference does not matter.
std::string reason_alone(const Image& wanted, const Image& found, const Layout& layout,
                         Address at) {
  if (!wanted.known(at)) return "unknown in the wanted image";
  if (!found.known(at)) return "unknown in the image found";
  if (at >= layout.size) return "the layout does not use it";
  // Without registers A and B the clock must be taken to run: that is what chips are for.
  const bool runs = read_clock(wanted, std::nullopt).running.value_or(true);
  if (runs && ticks(at)) return "the clock is running";
  const std::uint8_t bits = differing_bits(wanted, found, layout, at);
  if (writable_bits(at) == 0) return "read only";
  if ((bits & writable_bits(at)) == 0) return "the bit that differs cannot be written";
  if ((bits & writable_bits(at) & ~volatile_bits(layout, at)) == 0)
    return "the firmware changes it at each start";
  return {};
}

std::size_t common_size(const Image& wanted, const Image& found) {
  return std::min(wanted.size(), found.size());
}

/// A check that holds on both sides differs only because its covered bytes do. When all of those
/// were ignored, so is the check.
bool follows_from_ignored(const Check& check, const Image& wanted, const Image& found,
                          const Reasons& reasons) {
  for (const Image* image : {&wanted, &found}) {
    const CheckResult result = evaluate(check, *image);
    if (!result.counts || !result.ok()) return false;
  }
  const Addresses covered = covered_addresses(check);
  return std::all_of(covered.begin(), covered.end(), [&](Address at) {
    return wanted.at(at) == found.at(at) || !reasons[at].empty();
  });
}

Reasons find_reasons(const Image& wanted, const Image& found, const Layout& layout) {
  Reasons reasons;
  for (std::size_t i = 0; i < common_size(wanted, found); ++i) {
    const auto at = static_cast<Address>(i);
    if (wanted.at(at) != found.at(at)) reasons[at] = reason_alone(wanted, found, layout, at);
  }
  // In sealing order, so that a check over another's result finds that one settled.
  for (const std::size_t index : layout.sealing) {
    const Check& check = layout.checks[index];
    if (!follows_from_ignored(check, wanted, found, reasons)) continue;
    for (const Address at : stored_addresses(check))
      if (wanted.at(at) != found.at(at) && reasons[at].empty())
        reasons[at] = "the check follows bytes that do not matter";
  }
  return reasons;
}

bool is_of_the_clock(const Layout& layout, Address at) {
  if (at < Image::ram_start) return true;
  const Field* century = layout.field("century");
  if (century == nullptr) return false;
  const Addresses own = addresses(*century);
  return std::find(own.begin(), own.end(), at) != own.end();
}

}  // namespace

std::string_view name(Lost lost) {
  if (lost == Lost::nothing) return "nothing";
  return lost == Lost::clock ? "clock" : "settings";
}

Comparison compare(const Image& wanted, const Image& found, const Layout& layout) {
  const std::size_t size = common_size(wanted, found);
  if (size < layout.size)
    refuse("compare", fmt::format("the layout {} needs {} bytes, and one of the images has {}",
                                  layout.id, layout.size, size));
  const Reasons reasons = find_reasons(wanted, found, layout);
  Comparison comparison;
  for (std::size_t i = 0; i < size; ++i) {
    const auto at = static_cast<Address>(i);
    if (wanted.at(at) == found.at(at)) continue;
    comparison.differences.push_back({at, wanted.at(at), found.at(at),
                                      owners(layout, at, differing_bits(wanted, found, layout, at)),
                                      reasons[at]});
    if (!reasons[at].empty()) continue;
    comparison.equal = false;
    comparison.lost =
        std::max(comparison.lost, is_of_the_clock(layout, at) ? Lost::clock : Lost::settings);
  }
  return comparison;
}

}  // namespace rtcmend
