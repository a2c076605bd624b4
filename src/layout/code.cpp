#include "layout/code.h"

#include <algorithm>

namespace rtcmend {

namespace {

std::uint64_t to_bcd(std::int64_t value) {
  std::uint64_t raw = 0;
  for (unsigned shift = 0; value > 0; value /= 10, shift += 4)
    raw |= static_cast<std::uint64_t>(value % 10) << shift;
  return raw;
}

}  // namespace

bool in_escape(const Field& field, std::int64_t number) {
  return field.escape && number >= field.escape->least && number <= field.escape->most;
}

std::uint64_t code_of(const Field& field, const Value& value) {
  if (const auto* flag = std::get_if<bool>(&value)) return *flag ? 1 : 0;
  if (const auto* name = std::get_if<std::string>(&value))
    return std::find_if(field.choices.begin(), field.choices.end(),
                        [&](const Choice& choice) { return choice.name == *name; })
        ->raw;
  const std::int64_t number = std::get<std::int64_t>(value);
  if (in_escape(field, number)) return field.escape->when;
  if (field.meaning == Meaning::bcd) return to_bcd(number);
  return static_cast<std::uint64_t>((number - field.offset) / field.scale);
}

}  // namespace rtcmend
