#include "judge/plausibility.h"

#include <array>
#include <cmath>

#include "judge/relations.h"
#include "layout/codec.h"

namespace rtcmend {

namespace {

constexpr double illegal = -8, contradiction = -5, leftover = -2, odd_memory = -4, off_default = -1;
constexpr std::int64_t memory_step = 64;

bool is_long(const Field& field) {
  return field.meaning == Meaning::bytes || field.meaning == Meaning::text ||
         field.meaning == Meaning::concealed;
}

/// A memory size wide enough that chance values are seldom round.
bool is_memory(const Field& field) {
  return field.unit == "KiB" && field.scale == 1 && field.bits.size() > 1;
}

double value_bits(const FieldReading& reading) {
  const Field& field = *reading.field;
  if (!reading.legal) return illegal;
  double bits = 0;
  const auto* number = std::get_if<std::int64_t>(&reading.value);
  if (number != nullptr && is_memory(field) && *number % memory_step != 0) bits += odd_memory;
  const bool has_default = !std::holds_alternative<std::monostate>(field.preset);
  if (has_default && reading.value != field.preset) bits += off_default;
  return bits;
}

bool leaves_over(const FieldReading& reading, const Image& image) {
  const auto& escape = reading.field->escape;
  return escape && reading.raw != escape->when && image.at(escape->at).value_or(0) != 0;
}

double field_bits(const Field& field, const Layout& layout, const Image& image) {
  const FieldReading reading = read_value(field, image);
  if (!reading.known || !reading.in_use) return 0;
  double bits = value_bits(reading);
  const auto expected = expected_value(field, layout, image);
  if (expected && reading.value != *expected) bits += contradiction;
  if (leaves_over(reading, image)) bits += leftover;
  return bits;
}

bool has_structure(const Layout& layout, Address at) {
  if (!layout.checks_at(at).empty()) return true;
  for (const Field* field : layout.fields_at(at))
    if (!is_long(*field)) return true;
  return false;
}

/// The bytes are told apart as 00, FF and others, each as likely as this image has them, with one
/// more of each so that nothing is impossible.
double unstructured_bits(const Image& image, const Layout& layout) {
  constexpr std::array<double, 3> values_in_class{1, 1, 254};
  std::array<double, 3> count{};
  for (std::size_t i = Image::ram_start; i < image.size(); ++i) {
    const auto at = static_cast<Address>(i);
    if (!image.known(at) || has_structure(layout, at)) continue;
    const std::uint8_t byte = image[at];
    count[byte == 0x00 ? 0 : byte == 0xFF ? 1 : 2] += 1;
  }
  const double all = count[0] + count[1] + count[2] + 3;
  double bits = 0;
  for (std::size_t i = 0; i < count.size(); ++i)
    bits += count[i] * std::log2((count[i] + 1) / all / values_in_class[i]);
  return bits;
}

}  // namespace

double plausibility(const Image& image, const Layout& layout) {
  double bits = unstructured_bits(image, layout);
  for (const Field& field : layout.fields) bits += field_bits(field, layout, image);
  return bits;
}

}  // namespace rtcmend
