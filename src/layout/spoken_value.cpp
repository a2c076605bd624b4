#include "layout/spoken_value.h"

#include <algorithm>
#include <array>
#include <string>
#include <utility>

#include "base/text.h"

namespace rtcmend {

namespace {

/// In lower case, without blanks and quotation marks.
std::string bare(std::string_view word) {
  std::string text = lower(word);
  std::erase_if(text, [](char c) { return c == ' ' || c == '\t' || c == '"' || c == '\''; });
  return text;
}

bool is_one_of(std::string_view word, std::initializer_list<std::string_view> words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

std::optional<Value> spoken_flag(const std::string& word) {
  if (is_one_of(word, {"yes", "y", "on", "true", "1", "set", "enabled"})) return Value(true);
  if (is_one_of(word, {"no", "n", "off", "false", "0", "clear", "disabled"})) return Value(false);
  return std::nullopt;
}

/// "640k", "640kb" and "640kib" are 640 of KiB, as memory is counted; "1m" is 1024 of them.
std::optional<Value> spoken_number(const Field& field, std::string_view word) {
  const std::string unit = lower(field.unit);
  word = trim(word);
  std::int64_t factor = 1;
  const auto drop = [&](std::initializer_list<std::string_view> endings) {
    for (const std::string_view ending : endings)
      if (!ending.empty() && word.ends_with(ending)) {
        word.remove_suffix(ending.size());
        return true;
      }
    return false;
  };
  if (!drop({unit}) && unit == "kib" && !drop({"kb", "k"}) && drop({"mib", "mb", "m"}))
    factor = 1024;
  const auto number = parse_integer(trim(word));
  constexpr std::int64_t most = 1'000'000'000;
  if (!number || *number > most || *number < -most) return std::nullopt;
  return Value(*number * factor);
}

/// A floppy's size in thousandths of its megabyte of 1000 KiB: "1.44m", "1.44mb", "1440k" and
/// "1.44" are 1440. Nothing for another word.
std::optional<std::int64_t> floppy_size(std::string_view word) {
  if (word.ends_with('b')) word.remove_suffix(1);
  const bool kilo = word.ends_with('k');
  if (kilo || word.ends_with('m')) word.remove_suffix(1);
  const std::size_t point = word.find('.');
  const auto whole = parse_integer(word.substr(0, point));
  if (!whole || *whole < 0 || *whole > 9999) return std::nullopt;
  if (point == std::string_view::npos) return kilo || *whole > 9 ? *whole : *whole * 1000;
  std::string digits(word.substr(point + 1));
  if (kilo || digits.empty() || digits.size() > 3) return std::nullopt;
  digits.resize(3, '0');
  const auto part = parse_integer(digits);
  if (!part || *part < 0) return std::nullopt;
  return *whole * 1000 + *part;
}

/// Adapters by the names that are printed on them or in their manuals (from memory, no source):
/// what the display field of the AT class calls them.
constexpr std::array<std::pair<std::string_view, std::string_view>, 9> adapters{{
    {"vga", "own-firmware"},
    {"svga", "own-firmware"},
    {"ega", "own-firmware"},
    {"cga", "colour-80"},
    {"color", "colour-80"},
    {"colour", "colour-80"},
    {"mda", "mono-80"},
    {"mono", "mono-80"},
    {"monochrome", "mono-80"},
}};

std::optional<Value> spoken_choice(const Field& field, const std::string& word) {
  const auto named = [&](std::string_view name) -> std::optional<Value> {
    for (const Choice& choice : field.choices)
      if (bare(choice.name) == name) return Value(choice.name);
    return std::nullopt;
  };
  if (auto same = named(word)) return same;
  for (const auto& [adapter, name] : adapters)
    if (word == adapter) return named(name);
  if (is_one_of(word, {"no", "n", "-"})) return named("none");
  if (const auto size = floppy_size(word)) {
    for (const Choice& choice : field.choices)
      if (floppy_size(bare(choice.name)) == size) return Value(choice.name);
  }
  return std::nullopt;
}

}  // namespace

std::optional<Value> spoken_value(const Field& field, std::string_view word) {
  switch (field.meaning) {
    case Meaning::flag:
      return spoken_flag(bare(word));
    case Meaning::choice:
      return spoken_choice(field, bare(word));
    case Meaning::number:
    case Meaning::bcd:
      return spoken_number(field, lower(word));
    default:
      return std::nullopt;
  }
}

}  // namespace rtcmend
