#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <iterator>

#include "base/error.h"
#include "base/text.h"
#include "make/drives.h"

namespace rtcmend {

namespace {

struct Unit {
  std::string_view name;
  double bytes;
};
constexpr Unit units[] = {{"k", 1e3},      {"kb", 1e3},        {"m", 1e6},
                          {"mb", 1e6},     {"g", 1e9},         {"gb", 1e9},
                          {"kib", 1024.0}, {"mib", 1048576.0}, {"gib", 1073741824.0}};

[[noreturn]] void refuse_capacity(std::string_view text) {
  refuse_choice(
      "capacity", fmt::format("\"{}\" is not a capacity", printable(text)),
      "40M is 40,000,000 bytes, as disks are sold; 40MiB is 41,943,040. K and G work too");
}

/// "42.8" without exponents, signs or blanks; nothing for anything else or more than nine digits
/// before the point.
std::optional<double> plain_decimal(std::string_view digits) {
  const auto point = digits.find('.');
  const std::string_view whole = digits.substr(0, point);
  const std::string_view part =
      point == std::string_view::npos ? std::string_view{} : digits.substr(point + 1);
  const auto all_digits = [](std::string_view text) {
    return text.find_first_not_of("0123456789") == std::string_view::npos;
  };
  if (whole.empty() || whole.size() > 9 || part.size() > 9) return std::nullopt;
  if (!all_digits(whole) || !all_digits(part)) return std::nullopt;
  double value = static_cast<double>(*parse_integer(whole));
  if (!part.empty())
    value += static_cast<double>(*parse_integer(part)) /
             std::pow(10.0, static_cast<double>(part.size()));
  return value;
}

}  // namespace

std::uint64_t parse_capacity(std::string_view text) {
  const std::string word = lower(trim(text));
  const auto end = word.find_first_not_of("0123456789.");
  if (end == std::string::npos) refuse_capacity(text);
  const auto value = plain_decimal(std::string_view(word).substr(0, end));
  const std::string_view name = trim(std::string_view(word).substr(end));
  const auto unit = std::ranges::find(units, name, &Unit::name);
  if (!value || *value <= 0 || unit == std::end(units)) refuse_capacity(text);
  return static_cast<std::uint64_t>(std::llround(*value * unit->bytes));
}

}  // namespace rtcmend
