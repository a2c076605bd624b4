#include "judge/part_findings.h"

#include <algorithm>
#include <fmt/format.h>
#include <optional>

#include "base/text.h"
#include "chip/cautions.h"
#include "chip/clock.h"
#include "chip/registers.h"

namespace rtcmend {

namespace {

using Maybe = std::optional<Finding>;

Maybe too_small(const Layout& layout, const Part& part) {
  if (part.size >= layout.size) return std::nullopt;
  const Range upper{Image::small_size, Image::large_size - 1};
  return Finding{FindingKind::part_too_small, to_addresses(upper),
                 fmt::format("The {} has {} bytes, and the layout {} uses {}: 40h-7Fh have nowhere "
                             "to go.",
                             part.name, part.size, layout.id, layout.size),
                 by_hand({{"Fit a part with 128 bytes", Act{Act::Kind::list, "parts", {}}}}),
                 part.source};
}

Maybe larger(const Layout& layout, const Part& part) {
  if (part.size <= layout.size) return std::nullopt;
  return Finding{FindingKind::part_larger,
                 {},
                 fmt::format("The {} has 128 bytes, and this firmware knows 64: the upper half is "
                             "simply not used.",
                             part.name),
                 "Nothing, unless the firmware looks for a mirror of 00h-3Fh at 40h-7Fh.",
                 "common practice, no source"};
}

bool is_bcd(std::uint8_t byte) {
  return (byte >> 4) <= 9 && (byte & 0x0F) <= 9;
}

/// What the layout keeps where the part counts the century, when that is not the century.
std::string kept_at_century(const Layout& layout) {
  if (const auto stored = layout.checks_at(part_century); !stored.empty())
    return "a byte of " + stored.front()->id;
  for (const Field* field : layout.fields_at(part_century))
    if (field->id != "century") return field->id;
  if (const auto covering = layout.checks_over(part_century); !covering.empty())
    return "a byte that " + covering.front()->id + " covers";
  return {};
}

Maybe century_clash(const Image& image, const Layout& layout, const Part& part) {
  if (!part.keeps_century) return std::nullopt;
  const std::string kept = kept_at_century(layout);
  if (kept.empty()) return std::nullopt;
  std::string text = fmt::format(
      "The {} counts the century at 32h by itself, where this layout keeps {}: the byte changes "
      "when the century does.",
      part.name, kept);
  if (const auto byte = image.at(part_century); byte && !is_bcd(*byte))
    text += fmt::format(" {} is not made of decimal digits and may not survive there.",
                        hex_prose(*byte));
  return Finding{FindingKind::part_century_clash,
                 {part_century},
                 text,
                 by_hand("Fit a part that leaves 32h alone, such as the DS12887."),
                 "DS12885 for the part; the clash is reasoned from the two maps, not measured"};
}

/// Every RAM byte at ones, the part's own century byte aside.
bool ram_at_ones(const Image& image, const Part& part) {
  for (std::size_t i = Image::ram_start; i < image.size(); ++i) {
    const auto at = static_cast<Address>(i);
    if (part.keeps_century && at == part_century) continue;
    if (image.at(at) != 0xFF) return false;
  }
  return true;
}

bool clock_runs(const Image& image) {
  const auto a = image.at(reg::a);
  return a && decode_a(*a).oscillator == Oscillator::counting &&
         read_clock(image, std::nullopt).time.has_value();
}

std::string clear_input(const Part& part) {
  return part.ram_clear_pin ? fmt::format("pin {}", *part.ram_clear_pin)
                            : std::string("the RAM-clear input");
}

Finding ram_cleared(const Image& image, const Part& part) {
  const Range ram{Image::ram_start, static_cast<Address>(image.size() - 1)};
  return {
      FindingKind::part_ram_cleared, to_addresses(ram),
      fmt::format("Every RAM byte is FFh while the clock is right. That is what the {} leaves "
                  "when {} is pulled low without power: the board may tie it to ground.",
                  part.name, clear_input(part)),
      by_hand(fmt::format("Look where {} of the socket leads. If to ground, lift that pin of the "
                          "part, or fit a part without RAM clear.",
                          clear_input(part))),
      "DS12885; that the pin wants to be left open is from memory"};
}

Finding ram_clear(const Part& part) {
  return {
      FindingKind::part_ram_clear,
      {},
      fmt::format("The {} clears its RAM when {} is pulled low without power.", part.name,
                  clear_input(part)),
      by_hand("Make sure that the board leaves it open: a board that ties it to ground wipes the "
              "part at every power-off."),
      "DS12885; that the pin wants to be left open is from memory"};
}

Maybe about_ram_clear(const Image& image, const Part& part) {
  if (!part.ram_clear) return std::nullopt;
  return ram_at_ones(image, part) && clock_runs(image) ? ram_cleared(image, part) : ram_clear(part);
}

Maybe ships_stopped(const Image& image, const Part& part) {
  if (!part.ships_stopped) return std::nullopt;
  const auto a = image.at(reg::a);
  const bool starts = a && decode_a(*a).oscillator == Oscillator::counting;
  return Finding{
      FindingKind::part_ships_stopped,
      {reg::a},
      fmt::format("A new {} comes with its oscillator off, to spare the cell.", part.name),
      starts ? Advice("This image starts it: bits 6 to 4 of 0Ah are 010.") : [&]() -> Advice {
        return {{"Set the clock, which gives bits 6 to 4 of 0Ah the value 010",
                 Act{Act::Kind::set_clock, {}, {}}}};
      }(),
      "DS12885"};
}

Maybe trickle_charger(const Part& part) {
  if (!part.trickle_charger) return std::nullopt;
  return Finding{FindingKind::part_trickle_charger,
                 {},
                 fmt::format("The {} has a trickle charger, and a plain lithium coin cell must not "
                             "be charged: it may leak or burst.",
                             part.name),
                 by_hand("Give it a rechargeable cell only, or fit a part without a charger."),
                 part.source};
}

Maybe bare(const Part& part) {
  if (part.package != Package::bare) return std::nullopt;
  return Finding{
      FindingKind::part_bare,
      {},
      fmt::format("The {} has its cell on the board: out of its socket it forgets "
                  "everything at once.",
                  part.name),
      "Read it and write it in its machine: bytes that a programmer puts into it are lost "
      "on the way back.",
      part.source};
}

/// VRT is set, which says nothing on a part that sets it when it is read.
Maybe valid_by_reading(const Image& image, const Part& part) {
  const auto d = image.at(reg::d);
  if (!part.vrt_set_by_reading || !d || !decode_d(*d).valid) return std::nullopt;
  return Finding{
      FindingKind::part_valid_by_reading,
      {reg::d},
      fmt::format("On the {} reading 0Dh sets VRT, and the power-on test reads it before "
                  "anything else can: that VRT is 1 here says nothing of the cell.",
                  part.name),
      "Go by bit 7 of 0Eh: there the firmware notes that the clock had lost its power.",
      "from memory"};
}

Maybe counts_otherwise(const Image& image, const Part& part) {
  const auto a = image.at(reg::a);
  if (!a) return std::nullopt;
  const int divider = decode_a(*a).divider;
  constexpr int usual = 0b010;
  if (divider == usual || std::find(part.running_dividers.begin(), part.running_dividers.end(),
                                    divider) == part.running_dividers.end())
    return std::nullopt;
  return Finding{
      FindingKind::part_counts_otherwise,
      {reg::a},
      fmt::format("With {:03b} in bits 6 to 4 of 0Ah the {} counts, unlike the others of "
                  "the family: whatever is said here of a clock that stands still does "
                  "not hold for it.",
                  divider, part.name),
      "Leave these bits as they are: they go with its time base.",
      part.source};
}

Maybe daylight_by_part(const Image& image, const Part& part) {
  const auto b = image.at(reg::b);
  if (!b || !decode_b(*b).daylight_saving || part.daylight_saving.empty()) return std::nullopt;
  return Finding{FindingKind::part_daylight_saving,
                 {reg::b},
                 fmt::format("The {} takes its hour of daylight saving on the {}.", part.name,
                             part.daylight_saving),
                 "Nothing, when it is switched off as advised.",
                 part.daylight_source};
}

}  // namespace

std::vector<Finding> part_findings(const Image& image, const Layout& layout, const Part& part) {
  std::vector<Finding> findings;
  for (const Maybe& found :
       {too_small(layout, part), larger(layout, part), century_clash(image, layout, part),
        about_ram_clear(image, part), ships_stopped(image, part), trickle_charger(part), bare(part),
        valid_by_reading(image, part), counts_otherwise(image, part),
        daylight_by_part(image, part)})
    if (found) findings.push_back(*found);
  return findings;
}

}  // namespace rtcmend
