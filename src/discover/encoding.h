#pragma once

#include <optional>
#include <string>
#include <vector>

#include "discover/following.h"

namespace rtcmend {

/// One value of a setting with the image of a dump taken at that value.
struct Sample {
  std::string value;
  const Image* image = nullptr;
  std::size_t dumps = 1;  ///< that agree on it
};

/// How the bits of a setting stand for its values.
struct Encoding {
  enum class Kind {
    number,  ///< value = raw * scale + offset
    bcd,     ///< decimal digits, four bits each
    flag,    ///< one bit, 1 for yes
    choice   ///< a code for each value, without a rule behind it
  };
  Kind kind = Kind::choice;
  std::vector<Bit> bits;  ///< most significant first
  std::int64_t scale = 1, offset = 0;
  std::string unit;                      ///< "KiB": what stands behind every number
  std::vector<std::vector<Bit>> copies;  ///< the same once more, same order
  bool digits_open = false;  ///< codes that may be a number or decimal digits: no value was above 9
};

/// Bits that move with nothing, so that a number may take them in between its own.
struct FreeBits {
  std::vector<std::vector<bool>> free;  ///< by address, then bit
  bool operator()(const Bit& bit) const { return free[bit.at][bit.bit]; }
};

/// Reads the rule behind a setting's values. `bits` are those that moved, by address and highest
/// first.
Encoding find_encoding(const std::vector<Bit>& bits, const std::vector<Sample>& samples,
                       const FreeBits& is_free);

/// The bits of an image as one number, most significant first; at most 64 bits.
std::uint64_t raw_of(const std::vector<Bit>& bits, const Image& image);

/// A whole number with an optional unit behind it: "640", "640 KiB", "384K".
struct Quantity {
  std::int64_t number = 0;
  std::string unit;
};
std::optional<Quantity> parse_quantity(std::string_view text);

/// Whether a word means yes (true) or no (false): on and off, enabled and disabled, and so on.
std::optional<bool> parse_yes_or_no(std::string_view text);

}  // namespace rtcmend
