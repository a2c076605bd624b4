#include <algorithm>
#include <cstdlib>
#include <fmt/format.h>

#include "base/text.h"
#include "chip/cautions.h"
#include "judge/credence.h"
#include "judge/misreads.h"
#include "judge/rearrange.h"

namespace rtcmend {

namespace {

// A dump that a chip might have given is left alone; what is taken back must make it better by
// far. Some 150 ways to take something back are tried (7 bits), so 20 bits more than as read leave
// one false alarm in thousands of damaged dumps, and none in sound ones.
constexpr double clearly_better = 24;

/// A way to read the dump: how much it then looks like a chip's, and what was done to it.
struct Reading {
  enum class How { nibbles, bit_order, shift };
  double bits;
  How how;
  int places = 0;  ///< of a shift
};

Finding shifted(int places, std::size_t size) {
  const bool late = places > 0;
  const auto count = static_cast<unsigned>(std::abs(places));
  const auto first = static_cast<Address>(late ? places : 0);
  const auto meant = static_cast<Address>(late ? 0 : -places);
  const Range round =
      late ? Range{static_cast<Address>(size - count), static_cast<Address>(size - 1)}
           : Range{0, static_cast<Address>(count - 1)};
  return {FindingKind::shifted,
          {},
          fmt::format("The dump is shifted by {}: what stands at {} belongs at {}.", places,
                      hex_prose(first), hex_prose(meant)),
          {{late ? "Something was put before the first byte, such as a header."
                 : "The reading began too late, often at 1 instead of 0.",
            std::nullopt},
           {"Move it back", Act{Act::Kind::take_back, {}, fmt::format("shift={}", places)}},
           {fmt::format("Then look twice at {}, for what comes round the end may be anything.",
                        to_prose(to_addresses(round))),
            std::nullopt}},
          "reasoned: as read nothing fits, moved back it does"};
}

Finding nibbles_swapped() {
  return {FindingKind::nibbles_swapped,
          {},
          "The two hex digits of every byte are swapped.",
          {{"Swap them back", Act{Act::Kind::take_back, {}, "nibbles"}},
           {"Look for a reader or a listing that takes the low digit first.", std::nullopt}},
          "reasoned: as read nothing fits, swapped back it does"};
}

Finding bits_reversed() {
  return {
      FindingKind::bits_reversed,
      {},
      "The bits of every byte stand in the reverse order.",
      by_hand({{"Reverse them again", Act{Act::Kind::take_back, {}, "bit-order"}},
               {"Look for data lines wired the wrong way round: AD0 where AD7 belongs (pins 4 to "
                "11 of a 24-pin part).",
                std::nullopt}}),
      "reasoned: as read nothing fits, reversed back it does; pins by DS12885"};
}

/// The bytes that came in at the other end may be anybody's.
Image without_round(const Image& moved, int places) {
  Image without = moved;
  const auto size = static_cast<int>(moved.size());
  const int first = places > 0 ? size - places : 0, last = places > 0 ? size : -places;
  for (int at = first; at < last; ++at) without.forget(static_cast<Address>(at));
  return without;
}

/// The bits of the best of several versions of one reading. Checks are asked only where the clock
/// and registers do not speak against it: that is one place in a hundred.
double credence_of(const std::vector<Image>& versions, std::span<const Layout> layouts) {
  double best = -makes_sense;
  for (const Image& version : versions) {
    const double chip = chip_credence(version);
    if (chip >= 0) best = std::max(best, chip + check_credence(version, layouts));
  }
  return best;
}

std::vector<Reading> readings(const Image& image, std::span<const Layout> layouts) {
  std::vector<Reading> all;
  all.push_back({credence_of({with_nibbles_swapped(image)}, layouts), Reading::How::nibbles});
  all.push_back({credence_of({with_bits_reversed(image)}, layouts), Reading::How::bit_order});
  if (!image.all_known()) return all;  // a gap would move along and cannot be told from a shift
  const int half = static_cast<int>(image.size() / 2);
  for (int places = 1 - half; places <= half; ++places) {
    if (places == 0) continue;
    const Image moved = rotated(image, -places);
    all.push_back(
        {credence_of({moved, without_round(moved, places)}, layouts), Reading::How::shift, places});
  }
  return all;
}

Finding finding_for(const Reading& reading, std::size_t size) {
  switch (reading.how) {
    case Reading::How::nibbles:
      return nibbles_swapped();
    case Reading::How::bit_order:
      return bits_reversed();
    case Reading::How::shift:
      break;
  }
  return shifted(reading.places, size);
}

}  // namespace

std::optional<Finding> rearranged_finding(const Image& image, std::span<const Layout> layouts) {
  const double as_read = credence(image, layouts);
  if (as_read >= makes_sense) return std::nullopt;
  std::vector<Reading> all = readings(image, layouts);
  const auto best = std::max_element(
      all.begin(), all.end(), [](const Reading& a, const Reading& b) { return a.bits < b.bits; });
  if (best->bits < makes_sense || best->bits - as_read < clearly_better) return std::nullopt;
  return finding_for(*best, image.size());
}

}  // namespace rtcmend
