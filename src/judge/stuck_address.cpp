#include <algorithm>
#include <fmt/format.h>

#include "chip/cautions.h"
#include "chip/registers.h"
#include "judge/credence.h"
#include "judge/misreads.h"
#include "judge/rearrange.h"
#include "judge/wires.h"

namespace rtcmend {

namespace {

constexpr unsigned half_line = 6;  // address line 6 tells the halves of a 128-byte part apart

/// Between two reads of one cell the seconds count on, and register C is cleared by the first.
bool may_differ(Address lower) {
  return lower == reg::seconds || lower == reg::c;
}

/// Whether every byte equals the one whose address differs in that line alone.
bool ignores_line(const Image& image, unsigned line) {
  const unsigned bit = 1U << line;
  std::size_t pairs = 0;
  for (unsigned i = 0; i < image.size(); ++i) {
    const auto low = static_cast<Address>(i), high = static_cast<Address>(i | bit);
    if ((i & bit) != 0 || !image.known(low) || !image.known(high)) continue;
    ++pairs;
    if (image[low] != image[high] && !may_differ(low)) return false;
  }
  // Half of the pairs known is enough to tell.
  return pairs >= image.size() / 4;
}

/// What the stuck line lets through, as a chip would look that has only those bytes.
double credence_at(const Image& image, unsigned line, bool high) {
  Image seen(image.size());
  for (unsigned i = 0; i < image.size(); ++i)
    if (((i >> line & 1U) != 0) == high && image.known(static_cast<Address>(i)))
      seen.set(static_cast<Address>(i), image[static_cast<Address>(i)]);
  // Without the mode in register B the clock bytes could not be judged.
  if (!seen.known(reg::b)) seen.set(reg::b, usual_b);
  return chip_credence(seen);
}

/// Where the bytes that were read belong: under addresses with the line at 0, or at 1.
bool stuck_high(const Image& image, unsigned line) {
  return credence_at(image, line, true) > credence_at(image, line, false);
}

Finding line_finding(unsigned line, bool high) {
  return {FindingKind::address_line_stuck,
          {},
          fmt::format("Each byte equals the one whose address differs in bit {} alone: address "
                      "line A{} is stuck, most likely at {}. Half of the chip was never read.",
                      line, line, high ? 1 : 0),
          by_hand(fmt::format(
              "Look at address line A{} of the reader. In the socket the same pin, {}, "
              "carries data bit {}, which does move; so suspect the reader's latch, its "
              "cable, or the address strobe (AS, pin 14) before the pin. Then dump again.",
              line, bus_pin(line), line)),
          "reasoned from the multiplexed bus; pins by DS12885"};
}

}  // namespace

bool halves_mirror(const Image& image) {
  return image.size() == Image::large_size && ignores_line(image, half_line);
}

Finding mirror_finding() {
  return {
      FindingKind::halves_mirrored,
      {},
      "The dump holds 64 bytes twice, as a 64-byte part gives them to a reader of 128: they are "
      "taken once. A stuck address line A6 would look the same.",
      by_hand("Nothing, if the part has 64 bytes. If it has 128, look at address line A6 of the "
              "reader."),
      "RBIL61, CMOS 40h-7Fh"};
}

Finding upper_half_finding() {
  return line_finding(half_line, true);
}

std::optional<Finding> address_line_finding(const Image& image) {
  for (unsigned line = 0; line < half_line; ++line)
    if (ignores_line(image, line)) return line_finding(line, stuck_high(image, line));
  return std::nullopt;
}

}  // namespace rtcmend
