#include "upkeep/retention.h"

#include <algorithm>
#include <bit>
#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "chip/cautions.h"
#include "chip/clock.h"
#include "chip/registers.h"
#include "judge/compare.h"
#include "judge/examine.h"
#include "judge/health.h"
#include "layout/privacy.h"

namespace rtcmend {

namespace {

/// Up to so many bits are named and blamed on a marginal cell; from a fifth of the bits on, nothing
/// is left of the contents: noise differs in half of them. Our own lines, no source.
constexpr std::size_t few_bits = 16;
constexpr double share_of_noise = 0.2;

std::uint8_t differing(const PowerOff& test, Address at) {
  return static_cast<std::uint8_t>(test.wanted[at] ^ test.found[at]);
}

/// RAM bytes that differ and matter; an unknown one is not among them.
Addresses changed_ram(const PowerOff& test, const Layout& layout) {
  Addresses changed;
  for (const Difference& difference : compare(test.wanted, test.found, layout).differences)
    if (difference.at >= Image::ram_start && difference.ignored.empty())
      changed.push_back(difference.at);
  return changed;
}

std::vector<LostBit> lost_bits(const PowerOff& test, const Layout& layout,
                               const Addresses& changed) {
  std::vector<LostBit> bits;
  for (const Address at : changed) {
    if (layout.is_private(at)) continue;
    for (int bit = 7; bit >= 0; --bit)
      if ((differing(test, at) >> bit & 1) != 0)
        bits.push_back({at, bit, (test.wanted[at] >> bit & 1) != 0});
  }
  return bits;
}

Addresses hidden_among(const Addresses& changed, const Layout& layout) {
  Addresses hidden;
  for (const Address at : changed)
    if (layout.is_private(at)) hidden.push_back(at);
  return hidden;
}

/// RAM bytes that are known on both sides.
std::size_t known_ram(const PowerOff& test) {
  std::size_t count = 0;
  for (std::size_t i = Image::ram_start; i < test.wanted.size(); ++i) {
    const auto at = static_cast<Address>(i);
    count += test.wanted.known(at) && test.found.known(at);
  }
  return count;
}

/// One value in every RAM byte that is known.
std::optional<std::uint8_t> one_value(const Image& image) {
  std::optional<std::uint8_t> value;
  for (std::size_t i = Image::ram_start; i < image.size(); ++i) {
    const auto byte = image.at(static_cast<Address>(i));
    if (!byte) continue;
    if (value && *value != *byte) return std::nullopt;
    value = byte;
  }
  return value;
}

/// The firmware, not a cell, makes checks hold again over bytes that have changed.
bool sealed_again(const PowerOff& test, const Layout& layout, const Addresses& changed) {
  bool concerned = false;
  for (const CheckResult& result : evaluate_all(layout, test.found)) {
    if (!result.counts) continue;
    if (!result.ok()) return false;
    const Addresses stored = stored_addresses(*result.check);
    for (const Address at : stored)
      concerned = concerned || std::find(changed.begin(), changed.end(), at) != changed.end();
  }
  return concerned;
}

/// Only check bytes differ, and they do not hold: the firmware stored a sum of another kind.
bool only_checks_changed(const Layout& layout, const Addresses& changed) {
  return std::all_of(changed.begin(), changed.end(), [&](Address at) {
    for (const Check& check : layout.checks) {
      const Addresses stored = stored_addresses(check);
      if (std::find(stored.begin(), stored.end(), at) != stored.end()) return true;
    }
    return false;
  });
}

std::string spoken_time(long long seconds) {
  if (seconds >= 86'400 && seconds % 86'400 == 0) return fmt::format("{} d", seconds / 86'400);
  if (seconds >= 3600 && seconds % 3600 == 0) return fmt::format("{} h", seconds / 3600);
  if (seconds >= 60) return fmt::format("{} min", seconds / 60);
  return fmt::format("{} s", seconds);
}

struct ClockFate {
  ClockKept kept = ClockKept::unknown;
  std::string text;
};

ClockFate held_by_registers(const Image& found) {
  if (decode_b(found[reg::b]).set)
    return {ClockKept::off, "SET (0Bh bit 7) is on, which freezes the clock"};
  return {ClockKept::off,
          fmt::format("the divider bits (0Ah bits 6-4) are {:03b} and not 010: the oscillator is "
                      "off or held",
                      decode_a(found[reg::a]).divider)};
}

ClockFate clock_fate(const PowerOff& test, const Layout& layout) {
  const ClockReading before = read_clock(test.wanted, century_in(layout, test.wanted));
  const ClockReading after = read_clock(test.found, century_in(layout, test.found));
  const bool meant_to_run = before.running.value_or(true);
  if (meant_to_run && after.running && !*after.running) return held_by_registers(test.found);
  if (!before.time || !meant_to_run || !after.known) return {};
  if (!after.time) return {ClockKept::lost, "it says a date or time that cannot be"};
  const long long gone = seconds_since_1980(*after.time) - seconds_since_1980(*before.time);
  if (gone < -test.slack)
    return {ClockKept::lost,
            fmt::format("it says {}, earlier than what was written", to_iso(*after.time))};
  if (gone + test.slack < test.seconds)
    return {ClockKept::stood_still,
            fmt::format("it went on by {} only, and the power was off for {}",
                        spoken_time(std::max(gone, 0LL)), spoken_time(test.seconds))};
  // Where the slack is as long as the time without power, a clock that stands may look so too.
  const bool told = gone >= test.seconds || test.seconds > test.slack;
  return {told ? ClockKept::kept : ClockKept::unknown, {}};
}

bool clock_failed(const Retention& result) {
  return result.clock != ClockKept::kept && result.clock != ClockKept::unknown;
}

/// Fills in what was found and what to measure next.
void say(Retention& result, Retained what, std::string text, Advice next) {
  result.what = what;
  result.text = std::move(text);
  result.next = std::move(next);
}

void say_changes_by_read(Retention& result, const std::vector<Finding>& unsteady) {
  say(result, Retained::changes_by_read,
      "Two reads of the same chip differ where nothing ticks, so nothing can be said about the "
      "cell yet; a fault of the bus or of an address line comes first. " +
          unsteady.front().text,
      unsteady.front().advice);
}

void say_nothing_kept(Retention& result) {
  say(result, Retained::nothing,
      "Everything is lost: what was read has nothing to do with what was written. The cell is not "
      "connected, is reversed, or is flat.",
      by_hand(
          {{"Measure at the part's cell pins, where it has them; which they are, and what the "
            "cell should give, stands with the part",
            Act{Act::Kind::list, "parts", {}}},
           {"Nothing there: follow the wires to the cell. A minus sign: the cell is the wrong "
            "way round. Too little: measure the cell by itself, and once more with the chip out "
            "of its socket; a cell that only sags under the chip is fed into a short or into "
            "the old cell.",
            std::nullopt}}));
}

void say_cleared(Retention& result) {
  say(result, Retained::cleared,
      "Every RAM byte is FFh and the clock was kept: the RAM-clear input was pulled low.",
      by_hand(
          {{"Look which pin of the part is its RAM-clear input", Act{Act::Kind::list, "parts", {}}},
           {"Measure it, the part out of its socket, from the socket to ground: it must not be "
            "tied there. On a board that does so, bend that pin up, or fit a part without RAM "
            "clear.",
            std::nullopt}}));
}

void say_clock_lost(Retention& result, long long seconds) {
  const std::string text = "The RAM was kept, but not the clock: " + result.clock_text + ".";
  if (result.clock == ClockKept::off)
    return say(
        result, Retained::clock_lost, text,
        {{"Write 0Ah = 26h and 0Bh with bit 7 off, as setting the clock does",
          Act{Act::Kind::set_clock, {}, {}}},
         {"Read it back at once: when it does not stay, measure 0Ah after each start, for the "
          "firmware changes it.",
          std::nullopt}});
  say(result, Retained::clock_lost, text,
      by_hand(
          fmt::format("See whether it runs with the power on: two readings a minute apart. Runs: "
                      "the oscillator stops on the cell; measure the cell with the chip on it, and "
                      "leave it off for {} once more. Stands: look at the crystal and its solder "
                      "joints.",
                      spoken_time(seconds))));
}

void say_rewritten(Retention& result) {
  say(result, Retained::firmware_rewrote,
      fmt::format("The RAM was kept; the firmware wrote {} itself at the start, and the checks "
                  "hold over the new bytes.",
                  to_prose(result.changed)),
      {{"No fault of the cell. Look at these bytes in what was found: when they are right for the "
        "machine, that is the better image to keep",
        Act{Act::Kind::show, {}, {}}}});
}

void say_other_check(Retention& result) {
  say(result, Retained::firmware_rewrote,
      fmt::format("The RAM was kept, only check bytes changed, and they do not hold by this "
                  "layout: the firmware stored a check of its own at {}.",
                  to_prose(result.changed)),
      {{"Perhaps another layout is the right one", Act{Act::Kind::identify, {}, {}}},
       {"An unknown check can be found", Act{Act::Kind::solve, {}, {}}}});
}

std::string bit_list(const std::vector<LostBit>& bits) {
  std::vector<std::string> parts;
  parts.reserve(bits.size());
  for (const LostBit& bit : bits) {
    const char* change = bit.wanted ? " (1 became 0)" : " (0 became 1)";
    parts.push_back(fmt::format("{} bit {}{}", hex_prose(bit.at), bit.bit, change));
  }
  return join(parts, ", ");
}

/// What a password's bytes are allowed to say.
std::string of_a_password(const Retention& result) {
  return fmt::format("{} of a password changed ({})", counted(result.hidden.size(), "byte"),
                     to_prose(result.hidden));
}

std::string few_lost(const Retention& result) {
  const bool one = result.bits.size() == 1;
  const std::string text = fmt::format("{} of the RAM {} lost: {}",
                                       one ? "One bit" : fmt::format("{} bits", result.bits.size()),
                                       one ? "was" : "were", bit_list(result.bits));
  return result.hidden.empty() ? text : text + "; and " + of_a_password(result);
}

void say_only_a_password(Retention& result) {
  say(result, Retained::a_few_bits_lost,
      fmt::format("Nothing but {}: somebody set, changed or cleared it meanwhile, or a few of its "
                  "bits were lost.",
                  of_a_password(result)),
      by_hand("When nobody touched it: measure the cell with the chip on it, write the image and "
              "test again."));
}

void say_few_bits(Retention& result) {
  if (result.bits.empty()) return say_only_a_password(result);
  say(result, Retained::a_few_bits_lost,
      few_lost(result) + ". A marginal chip, or a cell that is nearly too low.",
      by_hand(
          "Measure the cell with the chip on it: when it gives less than the part takes, the cell "
          "is to blame. With a good cell, write the image and test again: the same bits lost a "
          "second time are weak places of the chip, others point to noise when the power comes "
          "and goes."));
}

void say_much(Retention& result) {
  const std::string more = result.hidden.empty() ? "" : ", and " + of_a_password(result);
  say(result, Retained::much_lost,
      fmt::format("{} bits of the RAM were lost, in {} bytes{}: the cell feeds the chip, but not "
                  "well enough, or contact was lost for a while.",
                  result.bits.size(), result.changed.size() - result.hidden.size(), more),
      by_hand(
          "Measure the cell with the chip on it while you move the holder and the wires: it must "
          "not fall below what the part takes. Then test again with a shorter time without "
          "power."));
}

void say_kept(Retention& result, long long seconds) {
  say(result, Retained::everything,
      fmt::format("Kept: every byte that matters came through {} without power{}.",
                  spoken_time(seconds),
                  result.clock == ClockKept::kept ? ", and the clock went on" : ""),
      seconds < 12 * 3600 ? [&]() -> Advice { return {{"Leave it off over a night and test once more.", std::nullopt},
                                   {"Then see over a week how well it keeps time",
                                    Act{Act::Kind::measure_drift, {}, {}}}}; }()
                          : [&]() -> Advice { return {{"See over a week how well it keeps time",
                                    Act{Act::Kind::measure_drift, {}, {}}}}; }());
}

void judge_ram(Retention& result, const PowerOff& test, const Layout& layout) {
  // A password's bytes have no say in how much was lost: their bits would be told by it.
  const PowerOff open{without_private(test.wanted, layout), without_private(test.found, layout),
                      std::nullopt, test.seconds, test.slack};
  const double lost = static_cast<double>(result.bits.size()) /
                      std::max(1.0, static_cast<double>(known_ram(open) * 8));
  const auto value = one_value(open.found);
  if (value == 0xFF && result.clock == ClockKept::kept) return say_cleared(result);
  if (value || lost > share_of_noise) return say_nothing_kept(result);
  if (sealed_again(test, layout, result.changed)) return say_rewritten(result);
  if (only_checks_changed(layout, result.changed)) return say_other_check(result);
  if (result.bits.size() <= few_bits) return say_few_bits(result);
  say_much(result);
}

}  // namespace

Retention retention(const PowerOff& test, const Layout& layout) {
  if (std::min(test.wanted.size(), test.found.size()) < layout.size)
    refuse("compare", fmt::format("one image has {} bytes and the other {}; the layout {} needs {}",
                                  test.wanted.size(), test.found.size(), layout.id, layout.size));
  Retention result;
  result.changed = changed_ram(test, layout);
  result.bits = lost_bits(test, layout, result.changed);
  result.hidden = hidden_among(result.changed, layout);
  const ClockFate clock = clock_fate(test, layout);
  result.clock = clock.kept;
  result.clock_text = clock.text;
  result.cell_low = test.found.known(reg::d) && !decode_d(test.found[reg::d]).valid;
  if (test.again) {
    if (const auto unsteady = compare_reads(test.found, {*test.again}, private_bytes(layout));
        !unsteady.empty()) {
      say_changes_by_read(result, unsteady);
      return result;
    }
  }
  if (known_ram(test) == 0)
    refuse("compare", "no RAM byte is known on both sides", "read the chip again");
  if (!result.changed.empty())
    judge_ram(result, test, layout);
  else if (clock_failed(result))
    say_clock_lost(result, test.seconds);
  else
    say_kept(result, test.seconds);
  return result;
}

}  // namespace rtcmend
