#include "discover/encoding.h"

#include <algorithm>
#include <array>
#include <map>

#include "base/text.h"

namespace rtcmend {

namespace {

using Bits = std::vector<Bit>;

// Two numbers always lie on a line; only one of these makes it believable.
bool is_natural(std::int64_t scale, std::int64_t offset) {
  return offset == 0 || scale == 1;
}

// What the layout language can hold.
constexpr std::int64_t most_scale = 65536, most_offset = 65536;
constexpr std::size_t most_number_bits = 32;

struct Line {
  std::int64_t scale, offset;
};

// The straight line through all (raw, number) points.
std::optional<Line> fit_line(const std::vector<std::pair<std::int64_t, std::int64_t>>& points) {
  const auto [low, high] = std::ranges::minmax(points);
  if (low.first == high.first) return std::nullopt;
  const std::int64_t rise = high.second - low.second, run = high.first - low.first;
  if (rise % run != 0) return std::nullopt;
  const Line line{rise / run, low.second - rise / run * low.first};
  if (line.scale < 1 || line.scale > most_scale || std::abs(line.offset) > most_offset)
    return std::nullopt;
  const bool on_it = std::ranges::all_of(points, [&](const auto& point) {
    return point.second == point.first * line.scale + line.offset;
  });
  if (!on_it) return std::nullopt;
  const bool proves_itself = points.size() > 2;
  if (!proves_itself && !is_natural(line.scale, line.offset)) return std::nullopt;
  return line;
}

std::optional<std::int64_t> from_bcd(std::uint64_t raw, std::size_t bits) {
  std::int64_t number = 0;
  for (std::size_t shift = bits; shift > 0; shift -= 4) {
    const auto digit = static_cast<std::int64_t>(raw >> (shift - 4) & 0xF);
    if (digit > 9) return std::nullopt;
    number = number * 10 + digit;
  }
  return number;
}

// The moved bits of one byte, widened to a stretch without gaps, perhaps up to bit 7 or down to 0.
std::vector<Bits> stretches_in(Address at, const Bits& moved, const FreeBits& is_free) {
  unsigned high = 0, low = 7;
  for (const Bit& bit : moved) {
    high = std::max<unsigned>(high, bit.bit);
    low = std::min<unsigned>(low, bit.bit);
  }
  const auto nibble_high = high | 3U, nibble_low = low & ~3U;
  const std::array<std::pair<unsigned, unsigned>, 5> wanted = {
      {{high, low}, {nibble_high, nibble_low}, {7, low}, {high, 0}, {7, 0}}};
  std::vector<Bits> stretches;
  for (const auto& [top, bottom] : wanted) {
    Bits bits;
    bool open = true;
    for (unsigned i = top + 1; i-- > bottom;) {
      const Bit bit{at, static_cast<std::uint8_t>(i)};
      open = open && (is_free(bit) || std::ranges::count(moved, bit) != 0);
      bits.push_back(bit);
    }
    if (open && std::ranges::count(stretches, bits) == 0) stretches.push_back(std::move(bits));
  }
  return stretches;
}

std::map<Address, Bits> by_byte(const Bits& bits) {
  std::map<Address, Bits> bytes;
  for (const Bit& bit : bits) bytes[bit.at].push_back(bit);
  return bytes;
}

// Every way in which the moved bits could be one number: stretches in each byte, bytes in both
// orders.
std::vector<Bits> arrangements_of(const Bits& moved, const FreeBits& is_free) {
  std::vector<Bits> rising = {{}}, falling = {{}};
  for (const auto& [at, bits] : by_byte(moved)) {
    std::vector<Bits> more_rising, more_falling;
    for (const Bits& stretch : stretches_in(at, bits, is_free)) {
      for (const Bits& start : rising) {
        more_rising.push_back(start);
        more_rising.back().insert(more_rising.back().end(), stretch.begin(), stretch.end());
      }
      for (const Bits& end : falling) {
        more_falling.push_back(stretch);
        more_falling.back().insert(more_falling.back().end(), end.begin(), end.end());
      }
    }
    rising = std::move(more_rising);
    falling = std::move(more_falling);
  }
  for (const Bits& bits : falling)
    if (std::ranges::count(rising, bits) == 0) rising.push_back(bits);
  std::erase_if(rising, [](const Bits& bits) { return bits.size() > most_number_bits; });
  return rising;
}

struct Numbers {
  std::vector<std::int64_t> values;
  std::string unit;
};

std::optional<Numbers> numbers_in(const std::vector<Sample>& samples) {
  Numbers numbers;
  for (const Sample& sample : samples) {
    const auto quantity = parse_quantity(sample.value);
    if (!quantity) return std::nullopt;
    if (!numbers.values.empty() && quantity->unit != numbers.unit) return std::nullopt;
    numbers.unit = quantity->unit;
    numbers.values.push_back(quantity->number);
  }
  return numbers;
}

std::optional<Encoding> as_number(const Bits& bits, const std::vector<Sample>& samples,
                                  const Numbers& numbers) {
  std::vector<std::pair<std::int64_t, std::int64_t>> points;
  for (std::size_t i = 0; i < samples.size(); ++i)
    points.emplace_back(static_cast<std::int64_t>(raw_of(bits, *samples[i].image)),
                        numbers.values[i]);
  const auto line = fit_line(points);
  if (!line) return std::nullopt;
  return Encoding{Encoding::Kind::number, bits, line->scale, line->offset, numbers.unit, {}};
}

std::optional<Encoding> as_bcd(const Bits& bits, const std::vector<Sample>& samples,
                               const Numbers& numbers) {
  if (bits.size() % 4 != 0 || bits.size() < 8) return std::nullopt;
  for (std::size_t i = 0; i < samples.size(); ++i)
    if (from_bcd(raw_of(bits, *samples[i].image), bits.size()) != numbers.values[i])
      return std::nullopt;
  return Encoding{Encoding::Kind::bcd, bits, 1, 0, numbers.unit, {}};
}

// Up to 9, a number and decimal digits are stored alike.
bool are_digits_open(const Bits& moved, const std::vector<Sample>& samples,
                     const std::vector<Bits>& arrangements, const Numbers& numbers) {
  if (moved.size() > 64) return false;
  const bool all_small =
      std::ranges::all_of(numbers.values, [](auto n) { return n >= 0 && n <= 9; });
  return all_small && std::ranges::any_of(arrangements, [&](const Bits& bits) {
           return as_bcd(bits, samples, numbers).has_value();
         });
}

std::optional<Encoding> as_quantity(const Bits& moved, const std::vector<Sample>& samples,
                                    const FreeBits& is_free, const Numbers& numbers) {
  const auto arrangements = arrangements_of(moved, is_free);
  if (are_digits_open(moved, samples, arrangements, numbers))
    return Encoding{Encoding::Kind::choice, moved, 1, 0, "", {}, true};
  for (const Bits& bits : arrangements)
    if (auto bcd = as_bcd(bits, samples, numbers)) return bcd;
  for (const Bits& bits : arrangements)
    if (auto number = as_number(bits, samples, numbers)) return number;
  return std::nullopt;
}

// Bytes that stand side by side belong together; a gap separates copies.
std::vector<Bits> blocks_of(const Bits& moved) {
  std::vector<Bits> blocks;
  for (const auto& [at, bits] : by_byte(moved)) {
    if (blocks.empty() || blocks.back().back().at + 1 != at) blocks.emplace_back();
    blocks.back().insert(blocks.back().end(), bits.begin(), bits.end());
  }
  return blocks;
}

std::optional<Encoding> as_quantity_with_copies(const Bits& moved,
                                                const std::vector<Sample>& samples,
                                                const FreeBits& is_free, const Numbers& numbers) {
  const std::vector<Bits> blocks = blocks_of(moved);
  if (blocks.size() < 2) return std::nullopt;
  std::optional<Encoding> whole;
  for (const Bits& block : blocks) {
    const auto part = as_quantity(block, samples, is_free, numbers);
    if (!part) return std::nullopt;
    if (!whole) {
      whole = part;
      continue;
    }
    if (part->kind != whole->kind || part->scale != whole->scale || part->offset != whole->offset)
      return std::nullopt;
    whole->copies.push_back(part->bits);
  }
  return whole;
}

std::optional<Encoding> as_flag(const Bits& bits, const std::vector<Sample>& samples) {
  if (bits.size() != 1) return std::nullopt;
  for (const Sample& sample : samples)
    if (parse_yes_or_no(sample.value) != (raw_of(bits, *sample.image) == 1)) return std::nullopt;
  return Encoding{Encoding::Kind::flag, bits, 1, 0, "", {}};
}

}  // namespace

Encoding find_encoding(const std::vector<Bit>& bits, const std::vector<Sample>& samples,
                       const FreeBits& is_free) {
  if (const auto flag = as_flag(bits, samples)) return *flag;
  if (const auto numbers = numbers_in(samples)) {
    // More bytes than a number has are copies or codes; trying all their orders would take long.
    if (by_byte(bits).size() <= 4)
      if (const auto quantity = as_quantity(bits, samples, is_free, *numbers)) return *quantity;
    if (const auto quantity = as_quantity_with_copies(bits, samples, is_free, *numbers))
      return *quantity;
  }
  return {Encoding::Kind::choice, bits, 1, 0, "", {}};
}

std::uint64_t raw_of(const std::vector<Bit>& bits, const Image& image) {
  std::uint64_t raw = 0;
  for (const Bit& bit : bits) raw = raw << 1 | (image[bit.at] >> bit.bit & 1U);
  return raw;
}

std::optional<Quantity> parse_quantity(std::string_view text) {
  text = trim(text);
  std::size_t digits = text.starts_with('-') ? 1 : 0;
  while (digits < text.size() && text[digits] >= '0' && text[digits] <= '9') ++digits;
  const auto number = parse_integer(text.substr(0, digits));
  if (!number) return std::nullopt;
  const std::string_view unit = trim(text.substr(digits));
  const bool is_word = std::ranges::all_of(
      unit, [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '%'; });
  if (!is_word || unit.size() > 20) return std::nullopt;
  return Quantity{*number, std::string(unit)};
}

std::optional<bool> parse_yes_or_no(std::string_view text) {
  constexpr std::array yes = {"yes", "on", "enabled", "true", "present", "fitted"};
  constexpr std::array no = {"no", "off", "disabled", "false", "absent", "none"};
  const std::string word = lower(trim(text));
  if (std::ranges::count(yes, word) != 0) return true;
  if (std::ranges::count(no, word) != 0) return false;
  return std::nullopt;
}

}  // namespace rtcmend
