#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/image.h"
#include "layout/field.h"

namespace rtcmend {

/// What a field says in an image.
struct FieldReading {
  const Field* field = nullptr;
  bool known = false;     ///< every byte it needs is known
  bool in_use = true;     ///< false when its condition does not hold
  bool legal = true;      ///< false: the bits hold something that the layout gives no meaning
  std::string problem;    ///< why it is not legal
  std::uint64_t raw = 0;  ///< the bits as one number, up to 32 of them (0 for longer fields)
  Value value;            ///< nothing when unknown or without a meaning
  std::string text;       ///< for people: "640 KiB", "1.44M", "yes", "unknown", "not set"
};

FieldReading read_field(const Field& field, const Image& image);
/// The same with `text` left empty, for those who only judge: most of the time goes into the words.
FieldReading read_value(const Field& field, const Image& image);

/// What a field's escape byte holds once its value does not stand there: nothing when it was the
/// field's own, else what it holds now. For fields with an escape.
std::uint8_t unused_escape_byte(const Field& field, const Image& image);

/// Writes a value, the escape byte included. Refuses (Error, where = "FIELD") an illegal value with
/// the legal ones, and a concealed or read-only field. Unknown bytes that the field fills wholly
/// become known; bits beside it in an unknown byte cannot be guessed, which is refused.
void write_field(const Field& field, const Value& value, Image& image);

/// Turns a user's words into a value (spoken_value.h), hex for bytes. Refuses (Error) what is not
/// legal, with the legal values.
Value parse_value(const Field& field, std::string_view text);

/// Whether a value may be stored; empty when it may, else why not.
std::string illegal_because(const Field& field, const Value& value);

/// The legal values in words: "none, 360K, 1.2M", "0-14 or 16-255", "yes or no".
std::string legal_values(const Field& field);

/// A value as text: 640 -> "640 KiB".
std::string to_text(const Field& field, const Value& value);
/// The least and the greatest value that a number or BCD field takes without its escape byte.
std::int64_t least_value(const Field& field);
std::int64_t most_value(const Field& field);

}  // namespace rtcmend
