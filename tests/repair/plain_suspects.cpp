#include "repair/plain_suspects.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <fmt/format.h>
#include <map>

#include "base/text.h"
#include "judge/relations.h"
#include "layout/codec.h"
#include "repair/repair.h"

namespace rtcmend {

namespace {

struct Candidate {
  Repair repair;
  std::vector<const Check*> mends;
};

// --- one bit, one byte, two swapped bytes

Addresses tied_addresses(const Trouble& trouble) {
  Addresses all;
  for (const Check* check : trouble.failing)
    for (const Addresses& some : {covered_addresses(*check), stored_addresses(*check)})
      all.insert(all.end(), some.begin(), some.end());
  std::sort(all.begin(), all.end());
  all.erase(std::unique(all.begin(), all.end()), all.end());
  return all;
}

bool is_concealed(const Layout& layout, Address at) {
  for (const Field* field : layout.fields_at(at))
    if (field->meaning == Meaning::concealed) return true;
  return false;
}

std::vector<Repair> every_small_damage(const Image& image, const Layout& layout,
                                       const Trouble& trouble) {
  const Addresses tied = tied_addresses(trouble);
  const auto count = static_cast<double>(tied.size());
  Addresses open;
  for (const Address at : tied)
    if (!is_concealed(layout, at)) open.push_back(at);
  std::vector<Repair> bits, bytes, swaps;
  for (const Address at : open)
    for (unsigned value = 0; value < 256; ++value) {
      const auto to = static_cast<std::uint8_t>(value);
      const auto changed = static_cast<unsigned>(image[at] ^ to);
      const std::vector<Patch> patches{{at, image[at], to}};
      if (std::has_single_bit(changed))
        bits.push_back({fmt::format("bit-{:02X}-{}", at, std::countr_zero(changed)), "", patches,
                        0.5 / (8 * count)});
      else if (changed != 0)
        bytes.push_back(
            {fmt::format("byte-{:02X}-{:02X}", at, to), "", patches, 0.20 / (247 * count)});
    }
  for (auto first = open.begin(); first != open.end(); ++first)
    for (auto second = first + 1; second != open.end(); ++second) {
      const std::uint8_t a = image[*first], b = image[*second];
      if (a == b) continue;
      double prior = 0.01 / (count * (count - 1) / 2);
      if (*second == *first + 1) prior += 0.02 / (count - 1);
      swaps.push_back({fmt::format("swap-{:02X}-{:02X}", *first, *second),
                       "",
                       {{*first, a, b}, {*second, b, a}},
                       prior});
    }
  // In the order in which equally likely ones are listed: bits from low to high.
  std::stable_sort(bits.begin(), bits.end(),
                   [](const Repair& a, const Repair& b) { return a.id < b.id; });
  bits.insert(bits.end(), bytes.begin(), bytes.end());
  bits.insert(bits.end(), swaps.begin(), swaps.end());
  return bits;
}

// --- how plausible an image is (plausibility.h)

double bits_of_field(const Field& field, const Layout& layout, const Image& image) {
  const FieldReading reading = read_value(field, image);
  if (!reading.known || !reading.in_use) return 0;
  double bits = 0;
  const auto* number = std::get_if<std::int64_t>(&reading.value);
  if (!reading.legal) {
    bits -= 8;
  } else {
    if (number != nullptr && field.unit == "KiB" && field.scale == 1 && field.bits.size() > 1 &&
        *number % 64 != 0)
      bits -= 4;
    if (!std::holds_alternative<std::monostate>(field.preset) && reading.value != field.preset)
      bits -= 1;
  }
  const auto expected = expected_value(field, layout, image);
  if (expected && reading.value != *expected) bits -= 5;
  if (field.escape && reading.raw != field.escape->when &&
      image.at(field.escape->at).value_or(0) != 0)
    bits -= 2;
  return bits;
}

bool has_structure(const Layout& layout, Address at) {
  if (!layout.checks_at(at).empty()) return true;
  for (const Field* field : layout.fields_at(at))
    if (!is_long(*field)) return true;
  return false;
}

/// What speaks against the image by more than a value off its default.
double plain_strain(const Layout& layout, const Image& image) {
  double bits = 0;
  for (const Field& field : layout.fields) {
    const double own = bits_of_field(field, layout, image);
    if (own < -1) bits -= own;
  }
  return bits;
}

double plain_plausibility(const Image& image, const Layout& layout) {
  double zeros = 0, ones = 0, others = 0;
  for (std::size_t i = Image::ram_start; i < image.size(); ++i) {
    const auto at = static_cast<Address>(i);
    if (!image.known(at) || has_structure(layout, at)) continue;
    ++(image[at] == 0x00 ? zeros : image[at] == 0xFF ? ones : others);
  }
  const double all = zeros + ones + others + 3;
  double bits = zeros * std::log2((zeros + 1) / all) + ones * std::log2((ones + 1) / all) +
                others * std::log2((others + 1) / all / 254);
  for (const Field& field : layout.fields) bits += bits_of_field(field, layout, image);
  return bits;
}

// --- a field that was changed without sealing

void add_numbers(const Field& field, std::int64_t least, std::int64_t most, std::int64_t step,
                 std::vector<Value>& values) {
  for (std::int64_t number = least; number <= most; number += step)
    if (illegal_because(field, number).empty()) values.emplace_back(number);
}

std::vector<Value> values_of(const Field& field) {
  std::vector<Value> values;
  if (field.meaning == Meaning::flag) return {false, true};
  for (const Choice& choice : field.choices) values.emplace_back(choice.name);
  if (field.meaning != Meaning::number && field.meaning != Meaning::bcd) return values;
  const unsigned bits = bit_count(field);
  const std::int64_t codes = std::int64_t{1} << bits;
  if (bits > 8 && field.unit != "KiB") return {};
  add_numbers(field, field.least.value_or(field.offset),
              field.most.value_or((codes - 1) * field.scale + field.offset),
              bits > 8 ? 64 : field.scale, values);
  if (field.escape)
    add_numbers(field, std::max<std::int64_t>(field.escape->least, codes), field.escape->most, 1,
                values);
  return values;
}

Image with_value(const Image& image, Field field, const Value& value) {
  field.read_only = false;
  Image changed = image;
  write_field(field, value, changed);
  return changed;
}

Image with_followers_of(const Field& leader, const Layout& layout, Image image) {
  for (const Field& follower : layout.fields) {
    if (!follower.follows) continue;
    const auto& of = follower.follows->of;
    if (std::find(of.begin(), of.end(), leader.id) == of.end()) continue;
    const auto expected = expected_value(follower, layout, image);
    if (expected && illegal_because(follower, *expected).empty() &&
        read_field(follower, image).in_use)
      image = with_value(image, follower, *expected);
  }
  return image;
}

bool all_hold(const std::vector<const Check*>& checks, const Image& image) {
  return std::all_of(checks.begin(), checks.end(),
                     [&](const Check* check) { return evaluate(*check, image).ok(); });
}

Repair plain_sealing(const Image& image, const Layout& layout,
                     const std::vector<const Check*>& failing) {
  Repair repair;
  repair.id = "seal-" + failing.front()->id;
  Image sealed = image;
  unsigned bits = 0;
  for (const std::size_t index : layout.sealing)
    if (std::find(failing.begin(), failing.end(), &layout.checks[index]) != failing.end())
      seal_one(layout.checks[index], sealed);
  for (const Check* check : failing) bits += width(*check);
  repair.patches = patches_between(image, sealed);
  bool all_00 = true, all_ff = true;
  for (const Check* check : failing)
    for (const Address at : stored_addresses(*check)) {
      all_00 = all_00 && image[at] == 0x00;
      all_ff = all_ff && image[at] == 0xFF;
    }
  repair.prior = 0.04 * (all_00 || all_ff ? 0.25 : std::exp2(-static_cast<double>(bits)) / 2);
  repair.seals = true;
  const double as_read = plain_plausibility(image, layout);
  for (const Field& field : layout.fields) {
    const FieldReading now = read_field(field, image);
    if (!now.known || !now.in_use) continue;
    const std::vector<Value> values = values_of(field);
    for (const Value& value : values) {
      if (value == now.value) continue;
      Image before = with_value(image, field, value);
      if (!all_hold(failing, before)) before = with_followers_of(field, layout, before);
      if (!all_hold(failing, before)) continue;
      repair.prior += 0.11 * std::exp2(plain_plausibility(before, layout) - as_read) /
                      static_cast<double>(layout.fields.size()) /
                      static_cast<double>(values.size());
      repair.text += fmt::format(" {} from {}", field.id, to_text(field, value));
    }
  }
  return repair;
}

// --- all together

void add(Candidate candidate, std::vector<Candidate>& all) {
  for (Candidate& same : all) {
    if (same.repair.patches != candidate.repair.patches) continue;
    const double both = same.repair.prior + candidate.repair.prior;
    if (candidate.repair.prior > same.repair.prior) same = std::move(candidate);
    same.repair.prior = both;
    return;
  }
  all.push_back(std::move(candidate));
}

std::vector<Candidate> all_candidates(const Image& image, const Layout& layout,
                                      const Trouble& trouble) {
  std::vector<Candidate> all;
  for (const Repair& repair : every_small_damage(image, layout, trouble)) {
    const auto mends = mended_by(repair.patches, layout, trouble, image);
    if (!mends.empty()) add({repair, mends}, all);
  }
  const auto seal = [&](const std::vector<const Check*>& checks) {
    const Repair repair = plain_sealing(image, layout, checks);
    if (!repair.patches.empty()) add({repair, checks}, all);
  };
  const std::size_t failing = trouble.failing.size();
  const auto mends_all = [=](const Candidate& one) { return one.mends.size() == failing; };
  if (failing == 1 || std::any_of(all.begin(), all.end(), mends_all)) {
    std::erase_if(all, [&](const Candidate& one) { return !mends_all(one); });
    seal(trouble.failing);
  } else {
    for (const Check* check : trouble.failing) seal({check});
  }
  return all;
}

/// What "none of these" weighs: several wrong bytes leave any gap of a CRC or xor alike, and small
/// ones of a 16-bit sum more often.
double plain_none(const Image& image, const Layout& layout,
                  const std::vector<const Check*>& checks) {
  double weight = 0.12 * std::exp2(std::min(0.2 * plain_strain(layout, image), 24.0));
  for (const Check* check : checks) {
    const CheckResult result = evaluate(*check, image);
    const auto gap = static_cast<std::int16_t>(*result.stored - *result.computed);
    const bool near = std::holds_alternative<SumRule>(check->rule) && width(*check) == 16 &&
                      gap > -1024 && gap < 1024;
    weight *= near ? 1.0 / 2048 : std::exp2(-static_cast<double>(width(*check)));
  }
  return weight;
}

}  // namespace

std::vector<Suspect> plain_suspects(const Image& image, const Layout& layout) {
  const Trouble trouble = trouble_in(image, layout);
  if (trouble.failing.empty()) return {};
  const double as_read = plain_plausibility(image, layout);
  std::vector<Suspect> all;
  std::map<std::vector<std::string>, double> sums;
  for (const auto& [repair, mends] : all_candidates(image, layout, trouble)) {
    const double better =
        repair.seals ? 0 : plain_plausibility(patched(image, repair.patches), layout) - as_read;
    all.push_back({repair.id, repair.text, repair.patches, {}, repair.prior * std::exp2(better)});
    for (const Check* check : mends) all.back().mends.push_back(check->id);
    if (!sums.contains(all.back().mends)) sums[all.back().mends] = plain_none(image, layout, mends);
    sums[all.back().mends] += all.back().odds;
  }
  for (Suspect& suspect : all) suspect.odds /= sums[suspect.mends];
  std::stable_sort(all.begin(), all.end(),
                   [](const Suspect& a, const Suspect& b) { return a.odds > b.odds; });
  return all;
}

}  // namespace rtcmend
