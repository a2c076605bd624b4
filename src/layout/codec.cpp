#include "layout/codec.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "layout/code.h"
#include "layout/spoken_value.h"

namespace rtcmend {

namespace {

std::uint64_t raw_limit(const Field& field) {
  return (std::uint64_t{1} << bit_count(field)) - 1;
}

/// The field's own bits as one number, nothing when one of its bytes is unknown.
std::optional<std::uint64_t> gather(const Field& field, const Image& image) {
  std::uint64_t raw = 0;
  for (const BitSlice& slice : field.bits) {
    const auto byte = image.at(slice.at);
    if (!byte) return std::nullopt;
    raw = (raw << slice.width()) | ((*byte & slice.mask()) >> slice.low);
  }
  return raw;
}

void scatter(const Field& field, std::uint64_t raw, Image& image) {
  for (auto slice = field.bits.rbegin(); slice != field.bits.rend(); ++slice) {
    const auto part = static_cast<std::uint8_t>((raw << slice->low) & slice->mask());
    const auto beside = static_cast<std::uint8_t>(image[slice->at] & ~slice->mask());
    image.set(slice->at, static_cast<std::uint8_t>(beside | part));
    raw >>= slice->width();
  }
}

std::optional<std::vector<std::uint8_t>> gather_bytes(const Field& field, const Image& image) {
  std::vector<std::uint8_t> bytes;
  for (const BitSlice& slice : field.bits) {
    const auto byte = image.at(slice.at);
    if (!byte) return std::nullopt;
    bytes.push_back(*byte & slice.mask());
  }
  return bytes;
}

/// Decimal digits, a nibble each; nothing when a nibble is over 9.
std::optional<std::int64_t> from_bcd(std::uint64_t raw) {
  std::int64_t value = 0, place = 1;
  for (; raw != 0; raw >>= 4, place *= 10) {
    const auto digit = static_cast<std::int64_t>(raw & 0xF);
    if (digit > 9) return std::nullopt;
    value += digit * place;
  }
  return value;
}

std::string range_text(std::int64_t least, std::int64_t most) {
  return least == most ? fmt::format("{}", least) : fmt::format("{}-{}", least, most);
}

std::string illegal_number(const Field& field, std::int64_t value) {
  if (in_escape(field, value)) return {};
  const bool off_step =
      field.meaning == Meaning::number && (value - field.offset) % field.scale != 0;
  const bool is_escape_code =
      field.escape &&
      value == static_cast<std::int64_t>(field.escape->when) * field.scale + field.offset;
  if (value < least_value(field) || value > most_value(field) || is_escape_code)
    return fmt::format("{} is not among {}", value, legal_values(field));
  if (off_step) return fmt::format("{} is not a multiple of {}", value, field.scale);
  return {};
}

std::string text_of_bytes(const std::vector<std::uint8_t>& bytes) {
  std::string text(bytes.begin(), bytes.end());
  const auto end = text.find_last_not_of(std::string_view("\0 ", 2));
  text.erase(end == std::string::npos ? 0 : end + 1);
  return text;
}

bool is_ascii(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return c >= 0x20 && c < 0x7F; });
}

std::string hex_of_bytes(const std::vector<std::uint8_t>& bytes) {
  std::string text;
  for (const std::uint8_t byte : bytes) text += hex2(byte);
  return text;
}

void read_long(FieldReading& reading, const std::vector<std::uint8_t>& bytes) {
  switch (reading.field->meaning) {
    case Meaning::bytes:
      reading.value = hex_of_bytes(bytes);
      return;
    case Meaning::text:
      reading.legal = is_ascii(text_of_bytes(bytes));
      if (reading.legal)
        reading.value = text_of_bytes(bytes);
      else
        reading.problem = fmt::format("{} is not plain text", hex_of_bytes(bytes));
      return;
    default: {
      // An area that holds one value throughout was never filled (FF and 55 as well as 00; measured
      // on images of real machines).
      const bool clear = bytes.size() == 1
                             ? bytes.front() == 0
                             : std::all_of(bytes.begin(), bytes.end(),
                                           [&](auto byte) { return byte == bytes.front(); });
      reading.value = std::string(clear ? "not set" : "set");
    }
  }
}

void read_escaped(FieldReading& reading, const Image& image) {
  const Escape& escape = *reading.field->escape;
  const auto byte = image.at(escape.at);
  reading.known = byte.has_value();
  if (!byte) return;
  if (*byte >= escape.least && *byte <= escape.most) {
    reading.value = std::int64_t{*byte};
    return;
  }
  reading.legal = false;
  reading.problem =
      fmt::format("code {} says that the value is at {}, where {} is not among {}", escape.when,
                  hex_prose(escape.at), *byte, range_text(escape.least, escape.most));
}

void read_short(FieldReading& reading, const Image& image) {
  const Field& field = *reading.field;
  switch (field.meaning) {
    case Meaning::flag:
      reading.value = reading.raw != 0;
      return;
    case Meaning::choice: {
      const auto found = std::find_if(field.choices.begin(), field.choices.end(),
                                      [&](const Choice& c) { return c.raw == reading.raw; });
      if (found != field.choices.end()) {
        reading.value = found->name;
        return;
      }
      reading.legal = false;
      reading.problem = fmt::format("code {} has no meaning here", reading.raw);
      return;
    }
    case Meaning::bcd: {
      const auto value = from_bcd(reading.raw);
      if (value)
        reading.value = *value;
      else
        reading.problem = fmt::format("{:X}h is not made of decimal digits", reading.raw);
      break;
    }
    default:
      if (field.escape && reading.raw == field.escape->when) return read_escaped(reading, image);
      reading.value = static_cast<std::int64_t>(reading.raw) * field.scale + field.offset;
  }
  if (const auto* value = std::get_if<std::int64_t>(&reading.value))
    reading.problem = illegal_number(field, *value);
  reading.legal = reading.problem.empty();
}

std::vector<std::uint8_t> bytes_to_store(const Field& field, const std::string& value) {
  std::vector<std::uint8_t> bytes;
  if (field.meaning == Meaning::text) {
    bytes.assign(value.begin(), value.end());
  } else {
    for (std::size_t i = 0; i + 1 < value.size(); i += 2)
      bytes.push_back(static_cast<std::uint8_t>(*parse_hex(value.substr(i, 2), 0xFF)));
  }
  bytes.resize(field.bits.size());
  return bytes;
}

void need_whole_bytes_or_known(const Field& field, const Image& image) {
  for (const BitSlice& slice : field.bits)
    if (slice.mask() != 0xFF && !image.known(slice.at))
      refuse(field.id,
             fmt::format("byte {} is unknown, and the field is only a part of it",
                         hex_prose(slice.at)),
             Advice{{"Give the whole byte first", Act{Act::Kind::set_byte, hex2(slice.at), "00"}}});
}

}  // namespace

std::uint8_t unused_escape_byte(const Field& field, const Image& image) {
  // The other byte is the field's own only while the code says so; otherwise it may be the maker's
  // (measured: so on 8 of 8 images of one kind of firmware).
  const auto code = gather(field, image);
  if (!code || *code == field.escape->when) return 0;
  return image.at(field.escape->at).value_or(0);
}

FieldReading read_field(const Field& field, const Image& image) {
  FieldReading reading = read_value(field, image);
  if (!reading.known)
    reading.text = "unknown";
  else if (!reading.legal && std::holds_alternative<std::monostate>(reading.value))
    reading.text = is_long(field) ? "not text" : fmt::format("code {}", reading.raw);
  else
    reading.text = to_text(field, reading.value);
  return reading;
}

FieldReading read_value(const Field& field, const Image& image) {
  FieldReading reading;
  reading.field = &field;
  reading.in_use = is_in_use(field, image);
  if (is_long(field)) {
    if (const auto bytes = gather_bytes(field, image)) {
      reading.known = true;
      read_long(reading, *bytes);
    }
  } else if (const auto raw = gather(field, image)) {
    reading.known = true;
    reading.raw = *raw;
    read_short(reading, image);
  }
  return reading;
}

void write_field(const Field& field, const Value& value, Image& image) {
  if (field.meaning == Meaning::concealed)
    refuse(field.id,
           "it holds a password or its check word, which rtcmend neither shows nor changes");
  if (field.read_only) refuse(field.id, "it is shown for information and is not set by hand");
  if (const std::string why = illegal_because(field, value); !why.empty())
    refuse(field.id, why, "legal: " + legal_values(field));
  need_whole_bytes_or_known(field, image);
  if (is_long(field)) {
    const auto bytes = bytes_to_store(field, std::get<std::string>(value));
    for (std::size_t i = 0; i < bytes.size(); ++i) image.set(field.bits[i].at, bytes[i]);
    return;
  }
  const std::uint8_t unused = field.escape ? unused_escape_byte(field, image) : std::uint8_t{0};
  scatter(field, code_of(field, value), image);
  if (!field.escape) return;
  const auto* number = std::get_if<std::int64_t>(&value);
  const bool escaped = number != nullptr && in_escape(field, *number);
  image.set(field.escape->at, escaped ? static_cast<std::uint8_t>(*number) : unused);
}

std::string illegal_because(const Field& field, const Value& value) {
  const auto* number = std::get_if<std::int64_t>(&value);
  const auto* word = std::get_if<std::string>(&value);
  switch (field.meaning) {
    case Meaning::number:
    case Meaning::bcd:
      return number != nullptr ? illegal_number(field, *number) : "it takes a number";
    case Meaning::flag:
      return std::holds_alternative<bool>(value) ? "" : "it takes yes or no";
    case Meaning::choice: {
      const bool known = word != nullptr &&
                         std::any_of(field.choices.begin(), field.choices.end(),
                                     [&](const Choice& choice) { return choice.name == *word; });
      if (known) return {};
      return word != nullptr ? "that is not one of its values" : "it takes one of its names";
    }
    case Meaning::bytes: {
      const bool fits = word != nullptr && word->size() == field.bits.size() * 2 &&
                        word->find_first_not_of("0123456789ABCDEFabcdef") == std::string::npos;
      return fits ? "" : fmt::format("it takes {} hex digits", field.bits.size() * 2);
    }
    case Meaning::text: {
      const bool fits = word != nullptr && word->size() <= field.bits.size() && is_ascii(*word);
      return fits ? "" : fmt::format("it takes up to {} plain characters", field.bits.size());
    }
    case Meaning::concealed:
      break;
  }
  return "it holds a password or its check word, which rtcmend neither shows nor changes";
}

namespace {

/// The legal values, and which of them a mistyped one may have meant.
std::string legal_near(const Field& field, std::string_view text) {
  std::vector<std::string> names;
  for (const Choice& choice : field.choices) names.push_back(choice.name);
  const auto near = nearest(text, names);
  const std::string legal = "legal: " + legal_values(field);
  return near.empty() ? legal : fmt::format("{}; did you mean {}?", legal, join(near, " or "));
}

}  // namespace

Value parse_value(const Field& field, std::string_view text) {
  const Value value = spoken_value(field, text).value_or(std::string(trim(text)));
  if (const std::string why = illegal_because(field, value); !why.empty())
    refuse(field.id, fmt::format("\"{}\": {}", printable(text), why), legal_near(field, text));
  return value;
}

std::string legal_values(const Field& field) {
  switch (field.meaning) {
    case Meaning::flag:
      return "yes or no";
    case Meaning::choice: {
      std::vector<std::string> names;
      for (const Choice& choice : field.choices) names.push_back(choice.name);
      return join(names, ", ");
    }
    case Meaning::bytes:
      return fmt::format("{} hex digits", field.bits.size() * 2);
    case Meaning::text:
      return fmt::format("up to {} plain characters", field.bits.size());
    case Meaning::concealed:
      return "none: it cannot be set";
    default:
      break;
  }
  std::string legal = range_text(least_value(field), most_value(field));
  if (field.escape) legal += " or " + range_text(field.escape->least, field.escape->most);
  if (field.scale != 1) legal += fmt::format(" in steps of {}", field.scale);
  if (!field.unit.empty()) legal += " " + field.unit;
  return legal;
}

std::string to_text(const Field& field, const Value& value) {
  if (const auto* number = std::get_if<std::int64_t>(&value))
    return field.unit.empty() ? fmt::format("{}", *number)
                              : fmt::format("{} {}", *number, field.unit);
  if (const auto* flag = std::get_if<bool>(&value)) return *flag ? "yes" : "no";
  if (const auto* word = std::get_if<std::string>(&value)) return *word;
  return "unknown";
}

std::int64_t least_value(const Field& field) {
  if (field.least) return *field.least;
  return field.meaning == Meaning::number ? field.offset : 0;
}

std::int64_t most_value(const Field& field) {
  if (field.most) return *field.most;
  if (field.meaning == Meaning::bcd) {
    std::int64_t most = 1;
    for (unsigned digits = bit_count(field) / 4; digits > 0; --digits) most *= 10;
    return most - 1;
  }
  auto most_raw = static_cast<std::int64_t>(raw_limit(field));
  // The escape code is the highest one of its bits, and never a value of its own.
  if (field.escape && field.escape->when == raw_limit(field)) --most_raw;
  return most_raw * field.scale + field.offset;
}

}  // namespace rtcmend
