#include "repair/plausibility.h"

#include <array>
#include <cmath>

#include "judge/relations.h"
#include "layout/codec.h"

namespace rtcmend {

namespace {

constexpr double illegal = -8, contradiction = -5, leftover = -2, odd_memory = -4, off_default = -1;
constexpr std::int64_t memory_step = 64;

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
  if (breaks_relation(reading, layout, image)) bits += contradiction;
  if (leaves_over(reading, image)) bits += leftover;
  return bits;
}

std::bitset<Image::large_size> structured_bytes(const Layout& layout) {
  std::bitset<Image::large_size> structured;
  for (const Check& check : layout.checks)
    for (const Address at : stored_addresses(check)) structured.set(at);
  for (const Field& field : layout.fields)
    if (!is_long(field))
      for (const Address at : addresses(field)) structured.set(at);
  return structured;
}

}  // namespace

Plausibility::Plausibility(const Image& image, const Layout& layout, const FieldIndex& index)
    : image_(image), layout_(layout), index_(index), unstructured_(~structured_bytes(layout)) {
  for (std::size_t i = 0; i < unstructured_.size(); ++i) {
    const auto at = static_cast<Address>(i);
    if (i < Image::ram_start || !image.known(at)) unstructured_.reset(i);
    if (unstructured_[i]) ++classes_[class_of(image[at])];
  }
}

std::size_t Plausibility::class_of(std::uint8_t byte) {
  return byte == 0x00 ? 0 : byte == 0xFF ? 1 : 2;
}

/// The bytes are told apart as 00, FF and others, each as likely as this image has them, with one
/// more of each so that nothing is impossible.
double Plausibility::bits(const Classes& classes) {
  constexpr std::array<double, 3> values_in_class{1, 1, 254};
  const auto all = static_cast<double>(classes[0] + classes[1] + classes[2] + classes.size());
  double bits = 0;
  for (std::size_t i = 0; i < classes.size(); ++i) {
    const auto count = static_cast<double>(classes[i]);
    bits += count * std::log2((count + 1) / all / values_in_class[i]);
  }
  return bits;
}

double Plausibility::strain() const {
  double bits = 0;
  for (const Field& field : layout_.fields) {
    const double own = field_bits(field, layout_, image_);
    if (own < off_default) bits -= own;
  }
  return bits;
}

double Plausibility::gain(const std::vector<Patch>& patches) const {
  const Image changed = patched(image_, patches);
  double gained = 0;
  for (const std::size_t i : index_.resting_on(patches)) {
    const Field& field = layout_.fields[i];
    gained += field_bits(field, layout_, changed) - field_bits(field, layout_, image_);
  }
  Classes classes = classes_;
  for (const auto& [at, from, to] : patches) {
    if (!unstructured_[at]) continue;
    --classes[class_of(from)];
    ++classes[class_of(to)];
  }
  return classes == classes_ ? gained : gained + bits(classes) - bits(classes_);
}

}  // namespace rtcmend
