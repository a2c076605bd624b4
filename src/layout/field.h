#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/image.h"

namespace rtcmend {

/// Neighbouring bits of one byte, `high` down to `low` (7 to 0).
struct BitSlice {
  Address at = 0;
  std::uint8_t high = 7;
  std::uint8_t low = 0;

  unsigned width() const { return high - low + 1U; }
  std::uint8_t mask() const { return static_cast<std::uint8_t>(((1U << width()) - 1) << low); }
  friend bool operator==(const BitSlice&, const BitSlice&) = default;
};

/// One code of a choice and its name.
struct Choice {
  std::uint32_t raw;
  std::string name;
  friend bool operator==(const Choice&, const Choice&) = default;
};

/// What the bits of a field stand for.
enum class Meaning {
  number,    ///< value = raw * scale + offset
  bcd,       ///< decimal digits, a nibble each
  choice,    ///< a name for each code
  flag,      ///< one bit: yes or no
  bytes,     ///< hex digits
  text,      ///< ASCII, padded with 00 or blanks
  concealed  ///< `private` in a layout file: a password or its check word, only "set" or "not set"
};

/// "When the bits hold `when`, the value stands in the byte at `at`" (the AT class's type nibble
/// F). For any other value that byte is cleared if it was the field's, and left alone otherwise.
struct Escape {
  std::uint32_t when = 0;
  Address at = 0;
  std::uint32_t least = 0;  ///< legal values in the other byte
  std::uint32_t most = 0;
  friend bool operator==(const Escape&, const Escape&) = default;
};

/// "Only while these bits lie between two values": what a field's use rests on.
struct UsedWhile {
  BitSlice bits;
  std::uint8_t least = 0, most = 0;  ///< of the bits alone

  /// Nothing when the byte is unknown.
  std::optional<bool> holds(const Image& image) const {
    const auto byte = image.at(bits.at);
    if (!byte) return std::nullopt;
    const unsigned value = (*byte & bits.mask()) >> bits.low;
    return value >= least && value <= most;
  }
  friend bool operator==(const UsedWhile&, const UsedWhile&) = default;
};

/// A value that follows from other fields. It is derived when they are set and it is not.
struct Follows {
  enum class How {
    count,  ///< how many of them are not zero, at least `least`
    any,    ///< whether one of them is not zero
    same    ///< the one field's value, as far as its own steps allow
  };
  How how = How::same;
  std::vector<std::string> of;
  std::uint32_t least = 0;
  /// Of `same`: from here on the leader may have stopped short, and the follower may go on.
  std::optional<std::uint32_t> up_to;
  friend bool operator==(const Follows&, const Follows&) = default;
};

/// A value as people and JSON see it: a number, yes or no, or a name or text. monostate = no value
/// (unknown bytes, or a code without a meaning).
using Value = std::variant<std::monostate, std::int64_t, bool, std::string>;

/// A named value at some bits.
struct Field {
  std::string id;      ///< "floppy_a"
  std::string label;   ///< "First floppy drive"
  std::string group;   ///< "drives"
  std::string note;    ///< a sentence for the reader, may be empty
  std::string source;  ///< where the fact is published, or its standing

  std::vector<BitSlice>
      bits;  ///< most significant first; whole bytes in reading order for bytes and text
  Meaning meaning = Meaning::number;
  std::string unit;  ///< "KiB", may be empty
  std::int64_t scale = 1;
  std::int64_t offset = 0;
  std::optional<std::int64_t> least, most;  ///< legal values (number, bcd)
  std::vector<Choice> choices;
  std::optional<Escape> escape;
  std::optional<Follows> follows;
  std::vector<UsedWhile> when;  ///< the field means something only while all of them hold
  Value preset;                 ///< what compose gives it; monostate = all bits zero
  bool is_volatile = false;     ///< changes by itself or by the firmware at each start
  bool read_only = false;       ///< shown, never set by the user
  bool is_partial = false;      ///< values without a meaning here may be good all the same

  friend bool operator==(const Field&, const Field&) = default;
};

/// Every byte the field touches, the escape byte included, ascending and without repeats.
Addresses addresses(const Field& field);
/// Whether its value is as long as its bytes: digits, text, or a password that is never told.
bool is_long(const Field& field);
/// Whether the field means something in this image; what is unknown does not speak against it.
bool is_in_use(const Field& field, const Image& image);
/// How many bits it has, its escape byte aside.
unsigned bit_count(const Field& field);
/// Whether the field may follow from others only: a one-line summary such as "follows floppy_a,
/// floppy_b". Empty when it does not follow.
std::string describe_follows(const Field& field);

}  // namespace rtcmend
