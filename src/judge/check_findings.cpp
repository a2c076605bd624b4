#include <algorithm>
#include <bit>
#include <fmt/format.h>

#include "base/text.h"
#include "judge/findings.h"

namespace rtcmend {

namespace {

/// The bytes that a check covers in this image, ascending: stretches whose condition fails do not
/// count.
Addresses counted_addresses(const Check& check, const Image& image) {
  Addresses counted;
  for (const Covered& covered : check.over) {
    if (covered.when && !covered.when->holds(image).value_or(true)) continue;
    const Addresses some = to_addresses(covered.range);
    counted.insert(counted.end(), some.begin(), some.end());
  }
  std::sort(counted.begin(), counted.end());
  return counted;
}

/// "16-bit sum over 10h-2Dh".
std::string name_of(const Check& check, const Image& image) {
  return fmt::format("{} over {}", describe(check), to_prose(counted_addresses(check, image)));
}

std::string value_text(const Check& check, std::uint16_t value) {
  return fmt::format("{:0{}X}h", value, width(check) / 4);
}

/// How far two results are apart, in the terms of the rule: a sum by an amount, the others by the
/// bits that differ.
std::string difference_text(const Check& check, std::uint16_t stored, std::uint16_t computed) {
  const int modulus = 1 << width(check);
  const bool adds = std::holds_alternative<SumRule>(check.rule) ||
                    std::holds_alternative<BalanceRule>(check.rule);
  if (!adds) {
    const auto bits = static_cast<std::uint16_t>(stored ^ computed);
    return fmt::format("they differ in {} of {} bits (xor {})", std::popcount(bits), width(check),
                       value_text(check, bits));
  }
  // Sums wrap round, so the shorter way round is the likelier story.
  int off = (stored - computed + modulus) % modulus;
  if (off > modulus / 2) off -= modulus;
  return fmt::format("the stored value is {} too {}", std::abs(off), off > 0 ? "high" : "low");
}

Finding mismatch(const CheckResult& result, const Image& image) {
  const Check& check = *result.check;
  const Addresses at = stored_addresses(check);
  return {FindingKind::check_mismatch,
          at,
          fmt::format("The {} comes to {}, but {} holds {}: {}.", name_of(check, image),
                      value_text(check, *result.computed), to_prose(at),
                      value_text(check, *result.stored),
                      difference_text(check, *result.stored, *result.computed)),
          {{"Look first at the small repairs that would explain it",
            Act{Act::Kind::see_repairs, {}, {}}},
           {"When every field reads right, recompute the check", Act{Act::Kind::seal, {}, {}}}},
          check.source};
}

Finding not_judged(const CheckResult& result, const Image& image) {
  const Check& check = *result.check;
  return {FindingKind::check_unknown, result.unknown,
          fmt::format("The {} cannot be judged, because {} is unknown.", name_of(check, image),
                      to_prose(result.unknown)),
          "Take a dump that holds these bytes, or set the fields that lie there.", check.source};
}

Advice write_an_image() {
  return {{"Write an image from a good dump, or build one from what is fitted",
           Act{Act::Kind::compose, {}, {}}}};
}

Finding blank_check(const CheckResult& result, const Image& image) {
  const Check& check = *result.check;
  const Addresses at = counted_addresses(check, image);
  return {FindingKind::blank, at,
          fmt::format("Every byte of {} is {}: they hold no configuration, whatever their {} "
                      "comes to.",
                      to_prose(at), hex_prose(image[at.front()]), describe(check)),
          write_an_image(), check.source};
}

/// Every RAM byte known, and all 00 or all FF.
bool ram_is_blank(const Image& image) {
  const auto first = image.at(Image::ram_start);
  if (!first || (*first != 0x00 && *first != 0xFF)) return false;
  for (std::size_t at = Image::ram_start; at < image.size(); ++at)
    if (image.at(static_cast<Address>(at)) != first) return false;
  return true;
}

Finding blank_ram(const Image& image) {
  const Range ram{Image::ram_start, static_cast<Address>(image.size() - 1)};
  return {FindingKind::blank, to_addresses(ram),
          fmt::format("Every byte of the RAM is {}: it holds no configuration.",
                      hex_prose(image[ram.first])),
          write_an_image(), "common practice, no source"};
}

Finding no_check() {
  return {FindingKind::no_check,
          {},
          "This layout ties no bytes together, so nothing proves that the RAM is right.",
          {{"If the machine's firmware is known, name its layout; see which ones fit",
            Act{Act::Kind::identify, {}, {}}}},
          {}};
}

}  // namespace

std::vector<Finding> check_findings(const std::vector<CheckResult>& results, const Image& image) {
  std::vector<Finding> findings;
  bool any_counts = false;
  for (const CheckResult& result : results) {
    if (!result.counts) continue;
    any_counts = true;
    if (!result.unknown.empty())
      findings.push_back(not_judged(result, image));
    else if (result.blank)
      findings.push_back(blank_check(result, image));
    else if (!result.ok())
      findings.push_back(mismatch(result, image));
  }
  if (any_counts) return findings;
  findings.push_back(ram_is_blank(image) ? blank_ram(image) : no_check());
  return findings;
}

}  // namespace rtcmend
