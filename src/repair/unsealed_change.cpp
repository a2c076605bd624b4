#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <iterator>

#include "base/text.h"
#include "judge/relations.h"
#include "layout/codec.h"
#include "repair/probe.h"
#include "repair/repair.h"
#include "repair/setup_change.h"

namespace rtcmend {

namespace {

constexpr std::int64_t memory_step = 64;
constexpr unsigned few_bits = 8;
constexpr double most_steps = 4096;

/// From least to most, as far as the field takes them.
template <typename Visit>
void visit_numbers(std::int64_t least, std::int64_t most, std::int64_t step, const Visit& visit) {
  // Bounds come from layout files, and may be wider than any field that is tried.
  const double steps =
      (static_cast<double>(most) - static_cast<double>(least)) / static_cast<double>(step);
  if (steps > most_steps) return;
  for (std::int64_t number = least; number <= most; number += step) visit(Value(number));
}

template <typename Visit>
void visit_numbers(const Field& field, const Visit& visit) {
  const unsigned bits = bit_count(field);
  const std::int64_t codes = std::int64_t{1} << bits;
  // Of wide numbers only sizes of memory have values that stand out.
  if (bits > few_bits && field.unit != "KiB") return;
  const std::int64_t step = bits > few_bits ? memory_step : field.scale;
  visit_numbers(field.least.value_or(field.offset),
                field.most.value_or((codes - 1) * field.scale + field.offset), step, visit);
  if (field.escape)
    visit_numbers(std::max<std::int64_t>(field.escape->least, codes), field.escape->most, 1, visit);
}

/// Every value that may have stood there before, and some numbers that are not legal; none for
/// fields with too many.
template <typename Visit>
void visit_values(const Field& field, const Visit& visit) {
  switch (field.meaning) {
    case Meaning::flag:
      visit(Value(false));
      visit(Value(true));
      return;
    case Meaning::choice:
      for (const Choice& choice : field.choices) visit(Value(choice.name));
      return;
    case Meaning::number:
    case Meaning::bcd:
      visit_numbers(field, visit);
      return;
    default:
      return;
  }
}

/// Whether visit_values() may come to any.
bool has_values(const Field& field) {
  return field.meaning == Meaning::flag || field.meaning == Meaning::choice ||
         field.meaning == Meaning::number || field.meaning == Meaning::bcd;
}

bool is_legal(const Field& field, const Value& value) {
  return illegal_because(field, value).empty();
}

std::size_t count_values(const Field& field) {
  // visit_values() keeps to the bounds of numbers, so that these need not be asked one by one.
  const bool all_legal = field.meaning == Meaning::number && field.scale == 1 && !field.escape;
  std::size_t count = 0;
  visit_values(field, [&](const Value& value) {
    if (all_legal || is_legal(field, value)) ++count;
  });
  return count;
}

Image with_value(const Image& image, Field field, const Value& value) {
  field.read_only = false;
  Image changed = image;
  write_field(field, value, changed);
  return changed;
}

/// What setup programs do: fields that follow the changed one are changed with it.
Image with_followers(const std::vector<const Field*>& followers, const Layout& layout,
                     Image image) {
  for (const Field* follower : followers) {
    const auto expected = expected_value(*follower, layout, image);
    if (expected && is_legal(*follower, *expected) && read_value(*follower, image).in_use)
      image = with_value(image, *follower, *expected);
  }
  return image;
}

/// A field, and the value with which the checks would hold.
struct Change {
  const Field* field;
  Value before;
  double weight;  ///< its share of all such changes, times what the image before it gains
};

/// Looks for fields whose other value would make all failing checks hold. The bytes of a value are
/// tried on probes first: evaluating checks for every value of every field takes a hundred times
/// as long.
class StaleSearch {
 public:
  StaleSearch(const Image& image, const Layout& layout, const std::vector<const Check*>& failing,
              const Gain& gain)
      : image_(image), layout_(layout), failing_(failing), gain_(gain) {
    for (const Check* check : failing) probes_.emplace_back(*check, image);
  }

  std::vector<Change> operator()() const {
    std::vector<Change> changes;
    for (const Field& field : layout_.fields) add_changes_of(field, changes);
    return changes;
  }

 private:
  bool hold(const Image& image) const {
    return std::all_of(failing_.begin(), failing_.end(),
                       [&](const Check* check) { return evaluate(*check, image).ok(); });
  }
  bool any_rests_on(const Field& field) const {
    const Addresses at = addresses(field);
    return std::any_of(at.begin(), at.end(), [&](Address one) {
      return std::any_of(probes_.begin(), probes_.end(),
                         [=](const Probe& probe) { return probe.rests_on(one); });
    });
  }
  Addresses tied_bytes(const Field& field) const;
  std::vector<std::uint8_t> values_that_do(const Field& field, Address at) const;
  std::optional<std::vector<Value>> few_values(const Field& field) const;
  void add_changes_of(const Field& field, std::vector<Change>& changes) const;

  const Image& image_;
  const Layout& layout_;
  const std::vector<const Check*>& failing_;
  const Gain& gain_;
  std::vector<Probe> probes_;
};

/// Those of the field's bytes that the first check rests on.
Addresses StaleSearch::tied_bytes(const Field& field) const {
  Addresses tied;
  const auto look_at = [&](Address at) {
    if (probes_.front().rests_on(at) && std::find(tied.begin(), tied.end(), at) == tied.end())
      tied.push_back(at);
  };
  for (const BitSlice& slice : field.bits) look_at(slice.at);
  if (field.escape) look_at(field.escape->at);
  return tied;
}

/// The values of this byte of the field with which the first check would hold, and for which no bit
/// beside the field would have to change.
std::vector<std::uint8_t> StaleSearch::values_that_do(const Field& field, Address at) const {
  unsigned own = field.escape && field.escape->at == at ? 0xFFU : 0U;
  for (const BitSlice& slice : field.bits)
    if (slice.at == at) own |= slice.mask();
  std::vector<std::uint8_t> values = probes_.front().values(at);
  std::erase_if(values, [&](std::uint8_t value) { return ((value ^ image_[at]) & ~own) != 0; });
  return values;
}

/// The only values of the field that could do, its followers left alone, where they are known
/// without a trial: what a single byte would have to hold is known at once.
std::optional<std::vector<Value>> StaleSearch::few_values(const Field& field) const {
  const Addresses tied = tied_bytes(field);
  if (tied.empty()) return std::vector<Value>();
  if (tied.size() > 1) return std::nullopt;
  const std::vector<std::uint8_t> bytes = values_that_do(field, tied.front());
  const bool is_small_number =
      (field.meaning == Meaning::number || field.meaning == Meaning::bcd) && !field.escape &&
      bit_count(field) <= few_bits;
  if (!is_small_number && !bytes.empty()) return std::nullopt;
  std::vector<Value> values;
  for (const std::uint8_t byte : bytes) {
    Image changed = image_;
    changed.set(tied.front(), byte);
    values.push_back(read_value(field, changed).value);
  }
  return values;
}

void StaleSearch::add_changes_of(const Field& field, std::vector<Change>& changes) const {
  if (!has_values(field)) return;
  const std::vector<const Field*> followers = followers_of(field, layout_);
  std::vector<const Field*> tied;
  std::copy_if(followers.begin(), followers.end(), std::back_inserter(tied),
               [&](const Field* follower) { return any_rests_on(*follower); });
  const auto few = tied.empty() ? few_values(field) : std::nullopt;
  if (few && few->empty()) return;
  const FieldReading now = read_value(field, image_);
  if (!now.known || !now.in_use) return;

  const std::size_t first = changes.size();
  const auto try_value = [&](const Value& value) {
    if (value == now.value || !is_legal(field, value)) return;
    Image before = with_value(image_, field, value);
    if (!hold(before)) before = with_followers(followers, layout_, before);
    if (hold(before))
      changes.push_back({&field, value, std::exp2(gain_(patches_between(image_, before)))});
  };
  if (few) {
    std::for_each(few->begin(), few->end(), try_value);
  } else {
    const SetupChange change(field, tied, layout_, image_, probes_);
    visit_values(field, [&](const Value& value) {
      if (change.may_hold(value)) try_value(value);
    });
  }
  if (changes.size() == first) return;
  const double share =
      1 / static_cast<double>(layout_.fields.size()) / static_cast<double>(count_values(field));
  for (std::size_t i = first; i < changes.size(); ++i) changes[i].weight *= share;
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
  ids.reserve(checks.size());
  for (const Check* check : checks) ids.push_back(check->id);
  return join(ids, " and ");
}

/// How likely check bytes are to stand there that nobody computed: half of them as a cleared chip
/// leaves them, the others anything; by judgement.
double chance_of_stored(const std::vector<const Check*>& checks, const Image& image) {
  const auto all = [&](std::uint8_t value) {
    return std::all_of(checks.begin(), checks.end(), [&](const Check* check) {
      const Addresses at = stored_addresses(*check);
      return std::all_of(at.begin(), at.end(), [&](Address one) { return image[one] == value; });
    });
  };
  if (all(0x00) || all(0xFF)) return 0.25;
  return std::exp2(-1 - static_cast<double>(total_width(checks)));
}

}  // namespace

Repair sealing_repair(const Image& image, const Layout& layout,
                      const std::vector<const Check*>& failing, Origin origin, const Gain& gain) {
  std::vector<Change> changes = StaleSearch(image, layout, failing, gain)();
  std::stable_sort(changes.begin(), changes.end(),
                   [](const Change& a, const Change& b) { return a.weight > b.weight; });
  Repair repair;
  repair.id = "seal-" + failing.front()->id;
  repair.patches = patches_between(image, sealed(image, layout, failing));
  repair.prior = share_of(Mishap::never_sealed, origin) * chance_of_stored(failing, image);
  for (const Change& change : changes)
    repair.prior += share_of(Mishap::changed_unsealed, origin) * change.weight;
  repair.seals = true;
  if (changes.empty()) {
    repair.text =
        fmt::format("The check bytes of {} are wrong, or were never written.", names(failing));
    return repair;
  }
  const Field& changed = *changes.front().field;
  repair.text = fmt::format(
      "{} is stale: it would hold before a change of {}; nobody sealed after it. To seal is to "
      "keep "
      "the change: {} is then {} for good.",
      names(failing), changes_text(changes, image), changed.label, read_field(changed, image).text);
  return repair;
}

}  // namespace rtcmend
