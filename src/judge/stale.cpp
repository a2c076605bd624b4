#include <algorithm>
#include <cmath>
#include <fmt/format.h>

#include "base/text.h"
#include "judge/relations.h"
#include "judge/repair.h"
#include "layout/codec.h"

namespace rtcmend {

namespace {

// By judgement, next to the kinds of damage: a field was changed by a program that did not seal, or
// the check bytes hold just anything.
constexpr double any_stale = 0.12, any_check_lost = 0.03;
constexpr std::int64_t memory_step = 64;
constexpr unsigned few_bits = 8;

unsigned bit_count(const Field& field) {
  unsigned count = 0;
  for (const BitSlice& slice : field.bits) count += slice.width();
  return count;
}

/// From least to most, as far as the field takes them.
void add_numbers(const Field& field, std::int64_t least, std::int64_t most, std::int64_t step,
                 std::vector<Value>& values) {
  for (std::int64_t number = least; number <= most; number += step)
    if (illegal_because(field, number).empty()) values.emplace_back(number);
}

std::vector<Value> numbers(const Field& field) {
  std::vector<Value> values;
  const unsigned bits = bit_count(field);
  const std::int64_t codes = std::int64_t{1} << bits;
  // Of wide numbers only sizes of memory have values that stand out.
  if (bits > few_bits && field.unit != "KiB") return values;
  const std::int64_t step = bits > few_bits ? memory_step : field.scale;
  add_numbers(field, field.least.value_or(field.offset),
              field.most.value_or((codes - 1) * field.scale + field.offset), step, values);
  if (field.escape)
    add_numbers(field, std::max<std::int64_t>(field.escape->least, codes), field.escape->most, 1,
                values);
  return values;
}

/// Every value that may have stood there before; none for fields with too many.
std::vector<Value> values_of(const Field& field) {
  switch (field.meaning) {
    case Meaning::flag:
      return {false, true};
    case Meaning::choice: {
      std::vector<Value> values;
      for (const Choice& choice : field.choices) values.emplace_back(choice.name);
      return values;
    }
    case Meaning::number:
    case Meaning::bcd:
      return numbers(field);
    default:
      return {};
  }
}

Image with_value(const Image& image, Field field, const Value& value) {
  field.read_only = false;
  Image changed = image;
  write_field(field, value, changed);
  return changed;
}

/// What setup programs do: fields that follow the changed one are changed with it.
Image with_followers_of(const Field& leader, const Layout& layout, Image image) {
  for (const Field& follower : layout.fields) {
    if (!follower.follows) continue;
    const auto& of = follower.follows->of;
    if (std::find(of.begin(), of.end(), leader.id) == of.end()) continue;
    const auto expected = expected_value(follower, layout, image);
    if (expected && read_field(follower, image).in_use)
      image = with_value(image, follower, *expected);
  }
  return image;
}

bool all_hold(const std::vector<const Check*>& checks, const Image& image) {
  return std::all_of(checks.begin(), checks.end(),
                     [&](const Check* check) { return evaluate(*check, image).ok(); });
}

/// A field, and the value with which the checks would hold.
struct Change {
  const Field* field;
  Value before;
  double prior;
};

void add_changes_of(const Field& field, const Image& image, const Layout& layout,
                    const std::vector<const Check*>& failing, std::vector<Change>& changes) {
  const FieldReading now = read_field(field, image);
  if (!now.known || !now.in_use) return;
  const std::vector<Value> values = values_of(field);
  const double prior =
      any_stale / static_cast<double>(layout.fields.size()) / static_cast<double>(values.size());
  for (const Value& value : values) {
    if (value == now.value) continue;
    const Image before = with_value(image, field, value);
    if (all_hold(failing, before) || all_hold(failing, with_followers_of(field, layout, before)))
      changes.push_back({&field, value, prior});
  }
}

std::vector<Change> stale_changes(const Image& image, const Layout& layout,
                                  const std::vector<const Check*>& failing) {
  std::vector<Change> changes;
  for (const Field& field : layout.fields) add_changes_of(field, image, layout, failing, changes);
  return changes;
}

std::string changes_text(const std::vector<Change>& changes, const Image& image) {
  constexpr std::size_t most = 3;
  std::vector<std::string> parts;
  for (const Change& change : changes) {
    if (parts.size() == most) break;
    parts.push_back(fmt::format("{} from {} to {}", change.field->id,
                                to_text(*change.field, change.before),
                                read_field(*change.field, image).text));
  }
  return join(parts, ", or ");
}

Image sealed(Image image, const Layout& layout, const std::vector<const Check*>& checks) {
  for (const std::size_t index : layout.sealing) {
    const Check& check = layout.checks[index];
    if (std::find(checks.begin(), checks.end(), &check) != checks.end()) seal_one(check, image);
  }
  return image;
}

unsigned total_width(const std::vector<const Check*>& checks) {
  unsigned bits = 0;
  for (const Check* check : checks) bits += width(*check);
  return bits;
}

std::string names(const std::vector<const Check*>& checks) {
  std::vector<std::string> ids;
  for (const Check* check : checks) ids.push_back(check->id);
  return join(ids, " and ");
}

}  // namespace

Repair sealing_repair(const Image& image, const Layout& layout,
                      const std::vector<const Check*>& failing) {
  const std::vector<Change> changes = stale_changes(image, layout, failing);
  Repair repair;
  repair.id = "seal-" + failing.front()->id;
  repair.patches = patches_between(image, sealed(image, layout, failing));
  repair.prior = any_check_lost * std::exp2(-static_cast<double>(total_width(failing)));
  for (const Change& change : changes) repair.prior += change.prior;
  repair.text =
      changes.empty()
          ? fmt::format("The check bytes of {} are wrong, or were never written.", names(failing))
          : fmt::format("{} is stale: it would hold before a change of {}; nobody sealed after it.",
                        names(failing), changes_text(changes, image));
  return repair;
}

}  // namespace rtcmend
