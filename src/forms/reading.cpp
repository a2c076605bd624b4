#include "forms/reading.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"

namespace rtcmend {

namespace {

[[noreturn]] void refuse_value(const std::string& option, std::string_view value,
                               const std::string& legal) {
  refuse(option, fmt::format("\"{}\" is none of its values", printable(value)), legal);
}

std::optional<std::size_t> whole_number(std::string_view value) {
  const auto number = parse_integer(value);
  if (!number || *number < 0) return std::nullopt;
  return static_cast<std::size_t>(*number);
}

std::optional<std::size_t> one_of(std::string_view value,
                                  std::initializer_list<std::size_t> legal) {
  const auto number = whole_number(value);
  if (!number || std::find(legal.begin(), legal.end(), *number) == legal.end()) return std::nullopt;
  return number;
}

}  // namespace

int radix_named(const std::string& option, std::string_view value) {
  if (const auto number = one_of(value, {2, 8, 10, 16})) return static_cast<int>(*number);
  refuse_value(option, value, "2 (binary), 8 (octal), 10 (decimal) or 16 (hex)");
}

std::size_t width_named(const std::string& option, std::string_view value) {
  if (const auto number = one_of(value, {1, 2, 4, 8})) return *number;
  refuse_value(option, value, "1, 2, 4 or 8 bytes a number");
}

ByteOrder order_named(const std::string& option, std::string_view value) {
  if (value == "low") return ByteOrder::low_first;
  if (value == "high") return ByteOrder::high_first;
  refuse_value(option, value, "low or high: which byte of a number comes first");
}

AddressKind addresses_named(const std::string& option, std::string_view value) {
  if (value == "hex") return AddressKind::hex;
  if (value == "decimal") return AddressKind::decimal;
  if (value == "octal") return AddressKind::octal;
  if (value == "none") return AddressKind::none;
  refuse_value(option, value, "hex, decimal, octal or none");
}

std::size_t offset_named(const std::string& option, std::string_view value) {
  const std::string text = lower(value);
  constexpr std::uint32_t most = 0x100000;
  std::optional<std::size_t> number;
  if (text.starts_with("0x"))
    number = parse_hex(std::string_view(text).substr(2), most);
  else if (text.ends_with("h"))
    number = parse_hex(std::string_view(text).substr(0, text.size() - 1), most);
  else
    number = whole_number(text);
  if (number && *number <= most) return *number;
  refuse_value(option, value, "a number of bytes, as 128, 0x80 or 80h");
}

std::size_t chip_size_named(const std::string& option, std::string_view value) {
  if (const auto number = one_of(value, {Image::small_size, Image::large_size})) return *number;
  refuse_value(option, value, "64 or 128, the bytes of the chip");
}

void Remarks::add(const Remarks& more) {
  notes.insert(notes.end(), more.notes.begin(), more.notes.end());
  warnings.insert(warnings.end(), more.warnings.begin(), more.warnings.end());
}

}  // namespace rtcmend
