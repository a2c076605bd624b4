#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "forms/sizes.h"

namespace rtcmend {

/// A mark that says how the digits of a number are meant: 0x40, 40h, $40, &H40; 0b, 0o, &O.
enum class Mark { none, hex, binary, octal };

/// A word of a listing that can be a number, or stands for unknown bytes.
struct Number {
  std::string_view digits;  ///< without marks; pairs of ?? stand for unknown bytes
  Mark mark = Mark::none;
  bool negative = false;
  bool zero_added = false;  ///< a zero in front, as assemblers want it before a letter: 0F0h
};

/// A number without what C and Rust put behind it: 33u, 0x40UL, 0x40u8.
std::string_view without_suffix(std::string_view word);

/// Takes a word apart. Nothing for a word that is no number in any notation.
std::optional<Number> number_in(std::string_view word);

/// A number's value in a radix of 2, 8, 10 or 16. Nothing for a digit that the radix has not, or
/// more than 64 bits.
std::optional<std::uint64_t> value_in(std::string_view digits, int radix);

/// True when the text is made of hex digits alone, at least one.
bool all_hex(std::string_view text);
bool is_hex_digit(char c);

}  // namespace rtcmend
