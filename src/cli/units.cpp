#include "cli/units.h"

#include <cctype>
#include <fmt/format.h>
#include <initializer_list>
#include <locale>
#include <optional>
#include <sstream>
#include <string_view>
#include <utility>

#include "base/error.h"
#include "base/text.h"
#include "cli/clock_option.h"

namespace rtcmend {

namespace {

/// A number with what stands behind it: {500, "na"}.
struct Measure {
  double number = 0;
  std::string unit;  ///< lower case, may be empty
};

bool belongs_to_number(char c) {
  return std::isdigit(static_cast<unsigned char>(c)) != 0 || c == '.' || c == '-' || c == '+';
}

/// Decimal digits alone: no hex, no exponent, no "nan", whatever the locale.
std::optional<double> parse_decimal(const std::string& digits) {
  std::istringstream stream(digits);
  stream.imbue(std::locale::classic());
  double number = 0;
  if (!(stream >> number) || !stream.eof()) return std::nullopt;
  return number;
}

Measure parse_measure(const std::string& text, const std::string& where,
                      const std::string& example) {
  const std::string_view trimmed = trim(text);
  std::size_t end = 0;
  while (end < trimmed.size() && belongs_to_number(trimmed[end])) ++end;
  const auto number = parse_decimal(std::string(trimmed.substr(0, end)));
  if (!number) refuse(where, fmt::format("\"{}\" is not a number", printable(text)), example);
  return {*number, lower(trim(trimmed.substr(end)))};
}

using Unit = std::pair<std::string_view, double>;

double parse_in(const std::string& text, const std::string& where, const std::string& example,
                std::initializer_list<Unit> units) {
  const Measure measure = parse_measure(text, where, example);
  for (const auto& [name, factor] : units)
    if (measure.unit == name) return measure.number * factor;
  refuse(where,
         measure.unit.empty()
             ? fmt::format("{} needs its unit", printable(text))
             : fmt::format("\"{}\" is not a unit that fits here", printable(measure.unit)),
         example);
}

}  // namespace

double parse_microamps(const std::string& text, const std::string& where) {
  return parse_in(text, where, where + " 500nA, or 0.5uA",
                  {{"na", 1e-3},
                   {"ua", 1.0},
                   {"\xc2\xb5"
                    "a",
                    1.0},
                   {"ma", 1e3}});
}

double parse_milliamp_hours(const std::string& text, const std::string& where) {
  return parse_in(text, where, where + " 225, in mAh", {{"", 1.0}, {"mah", 1.0}, {"ah", 1e3}});
}

double parse_volts(const std::string& text, const std::string& where) {
  return parse_in(text, where, where + " 3, in volts", {{"", 1.0}, {"v", 1.0}, {"mv", 1e-3}});
}

double parse_celsius(const std::string& text, const std::string& where) {
  return parse_in(text, where, where + " 25, in degrees Celsius", {{"", 1.0}, {"c", 1.0}});
}

double parse_share(const std::string& text, const std::string& where) {
  const double share = parse_in(text, where, where + " 0.3, or 30%", {{"", 1.0}, {"%", 0.01}});
  if (share < 0 || share > 1)
    refuse(where, fmt::format("{} is no share of the whole", printable(text)),
           "0 is never, 1 or 100% is always");
  return share;
}

long long parse_duration(const std::string& text, const std::string& where) {
  constexpr double longest = 10 * 365.25 * 86'400;
  const double seconds =
      parse_in(text, where, where + " 30m; s, m, h and d are understood",
               {{"s", 1.0}, {"m", 60.0}, {"min", 60.0}, {"h", 3600.0}, {"d", 86'400.0}});
  if (!(seconds >= 1 && seconds <= longest))
    refuse(where, fmt::format("{} is no time to be without power", printable(text)),
           where + " 30m; s, m, h and d are understood");
  return static_cast<long long>(seconds);
}

DateTime parse_day(const std::string& text, const std::string& where) {
  constexpr std::size_t date_length = 10;
  const std::string_view trimmed = trim(text);
  if (trimmed.size() == date_length)
    if (const auto day = parse_iso(std::string(trimmed) + "T00:00:00")) return *day;
  return parse_clock(trimmed, where);
}

}  // namespace rtcmend
