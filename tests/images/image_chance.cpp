#include "images/image_chance.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

#include "judge/examine.h"
#include "judge/relations.h"
#include "layout/codec.h"

namespace rtcmend {

namespace {

constexpr double never = -std::numeric_limits<double>::infinity();

/// log2 of the sum of two numbers given by their log2.
double added(double a, double b) {
  const double high = std::max(a, b), low = std::min(a, b);
  return high == never ? never : high + std::log2(1 + std::exp2(low - high));
}

/// Of one that does not stand in the escape byte.
double number_chance(const Field& field, bool modest) {
  double values = std::exp2(bit_count(field));
  if (field.least && field.most)
    values = static_cast<double>((*field.most - *field.least) / field.scale + 1);
  else if (modest && field.unit == "KiB")
    values = 256.0 / static_cast<double>(std::max<std::int64_t>(1, field.scale / 64));
  else if (field.escape)
    values -= 1;
  return -std::log2(values);
}

bool is_modest_memory(std::int64_t value) {
  return value % 64 == 0 && value < 64 * 256;
}

double chance_of_number(const Field& field, const FieldReading& reading, bool modest,
                        const Image& image) {
  const std::int64_t value = std::get<std::int64_t>(reading.value);
  if (field.escape) {
    const std::uint8_t other = image[field.escape->at];
    if (reading.raw == field.escape->when) {
      const unsigned range = field.escape->most - field.escape->least + 1;
      const unsigned drawn = std::min(modest ? 32U : 256U, range);
      return other < field.escape->least + drawn ? -1 - std::log2(drawn) : never;
    }
    return other == 0 ? -1 + number_chance(field, modest) : never;
  }
  const bool steps_of_memory = modest && field.unit == "KiB" && field.meaning == Meaning::number &&
                               !(field.least && field.most);
  if (steps_of_memory && !is_modest_memory(value)) return never;
  return number_chance(field, modest);
}

double chance_of_bytes(const Field& field, const Image& image, bool modest) {
  const double any = -8.0 * static_cast<double>(field.bits.size());
  const bool zero = std::all_of(field.bits.begin(), field.bits.end(),
                                [&](const BitSlice& slice) { return image[slice.at] == 0; });
  if (!modest) return any;
  return zero ? added(-1, any - 1) : any - 1;
}

/// Whether random_image() may settle a follower before the field that says whether it is in use,
/// which follows others itself and comes later: half of such followers stay as they were drawn.
bool is_settled_too_early(const Field& field, const Layout& layout) {
  for (const UsedWhile& condition : field.when)
    for (const Field* other : layout.fields_at(condition.bits.at))
      if (other > &field && other->follows && other->bits.front() == condition.bits) return true;
  return false;
}

double chance_of_drawn(const Field& field, const FieldReading& reading, const Image& image,
                       bool modest);

double chance_of_field(const Field& field, const Layout& layout, const Image& image, bool modest) {
  if (field.id == "century") return -1;
  if (field.meaning == Meaning::concealed) {
    bool zero = true;
    double bits = -1;
    for (const BitSlice& slice : field.bits) {
      zero = zero && (image[slice.at] & slice.mask()) == 0;
      bits -= slice.width();
    }
    return zero ? added(-1, bits) : bits;
  }
  if (field.meaning == Meaning::bytes) return chance_of_bytes(field, image, modest);
  const FieldReading reading = read_value(field, image);
  if (!reading.legal) return never;
  const auto expected = expected_value(field, layout, image);
  const double drawn = chance_of_drawn(field, reading, image, modest);
  if (expected && is_settled_too_early(field, layout))
    return added(reading.value == *expected ? -1 : never, drawn - 1);
  return expected && reading.in_use ? (reading.value == *expected ? 0 : never) : drawn;
}

double chance_of_drawn(const Field& field, const FieldReading& reading, const Image& image,
                       bool modest) {
  switch (field.meaning) {
    case Meaning::flag: {
      const double set = modest && field.is_volatile ? 1.0 / 16 : 0.5;
      return std::log2(std::get<bool>(reading.value) ? set : 1 - set);
    }
    case Meaning::choice:
      return -std::log2(static_cast<double>(field.choices.size()));
    case Meaning::text:
      return -static_cast<double>(field.bits.size()) * std::log2(26.0);
    case Meaning::bcd:
      return -std::log2(static_cast<double>(field.most.value_or(99) - field.least.value_or(0) + 1));
    default:
      return chance_of_number(field, reading, modest, image);
  }
}

double chance_of_unclaimed(const Image& image, const Layout& layout) {
  double none = 0, sparse = 0, full = 0;
  for (std::size_t i = Image::ram_start; i < image.size(); ++i) {
    const auto at = static_cast<Address>(i);
    if (!layout.fields_at(at).empty() || !layout.checks_at(at).empty()) continue;
    const bool zero = image[at] == 0;
    none += zero ? 0 : never;
    sparse += std::log2(zero ? 0.75 + 0.25 / 256 : 0.25 / 256);
    full -= 8;
  }
  return added(none, added(sparse, full)) - std::log2(3.0);
}

}  // namespace

double image_chance(const Image& image, const Layout& layout) {
  const Examination examination = examine(image, layout);
  if (std::any_of(examination.findings.begin(), examination.findings.end(),
                  std::mem_fn(&Finding::is_fault)))
    return never;
  double moods = never;
  for (const bool modest : {true, false}) {
    double bits = -1;
    for (const Field& field : layout.fields) bits += chance_of_field(field, layout, image, modest);
    moods = added(moods, bits);
  }
  return moods + chance_of_unclaimed(image, layout);
}

}  // namespace rtcmend
