#include "forms/notation.h"

#include <algorithm>
#include <fmt/format.h>
#include <map>

namespace rtcmend {

namespace {

std::string_view radix_word(int radix) {
  switch (radix) {
    case 2:
      return "binary";
    case 8:
      return "octal";
    case 10:
      return "decimal";
    default:
      return "hex";
  }
}

/// Digits that the largest number of so many bytes has.
std::size_t full_digits(int radix, std::size_t width) {
  // 255, 65535, 4294967295 and 18446744073709551615; 377, 177777, 37777777777, ...
  constexpr std::size_t decimal[] = {0, 3, 5, 0, 10, 0, 0, 0, 20};
  constexpr std::size_t octal[] = {0, 3, 6, 0, 11, 0, 0, 0, 22};
  if (radix == 16) return 2 * width;
  if (radix == 2) return 8 * width;
  return (radix == 10 ? decimal : octal)[width];
}

int radix_of(const Number& number, const Notation& notation) {
  if (number.mark == Mark::hex) return 16;
  if (number.mark == Mark::binary) return 2;
  if (number.mark == Mark::octal) return 8;
  return notation.radix;
}

bool is_unknown(std::string_view digits) {
  return digits.find_first_of("?-xX") != std::string_view::npos;
}

/// Pairs of digits in the order they are written, ?? for an unknown byte.
std::optional<std::vector<DumpByte>> pairs_of(std::string_view digits) {
  if (digits.size() % 2 != 0) return std::nullopt;
  std::vector<DumpByte> bytes;
  for (std::size_t i = 0; i < digits.size(); i += 2) {
    const std::string_view pair = digits.substr(i, 2);
    if (all_hex(pair))
      bytes.emplace_back(static_cast<std::uint8_t>(*value_in(pair, 16)));
    else if (pair == "??" || pair == "--" || pair == "xx" || pair == "XX")
      bytes.emplace_back(std::nullopt);
    else
      return std::nullopt;
  }
  return bytes;
}

std::vector<DumpByte> split(std::uint64_t value, std::size_t width, ByteOrder order) {
  std::vector<DumpByte> bytes;
  for (std::size_t i = 0; i < width; ++i)
    bytes.emplace_back(static_cast<std::uint8_t>(value >> (8 * i)));
  if (order == ByteOrder::high_first) std::reverse(bytes.begin(), bytes.end());
  return bytes;
}

bool has_right_digits(std::string_view digits, int radix, const Notation& notation) {
  const std::size_t full = full_digits(radix, notation.width);
  if (notation.padded) return digits.size() == full;
  // A zero in front says in C that a number is octal, so all but zero itself have one.
  if (radix == 8 && notation.radix == 8)
    return digits == "0" ||
           (digits.front() == '0' && digits.size() <= full + 1 && digits[1] != '0');
  return digits.size() <= full && (digits.size() == 1 || digits.front() != '0');
}

}  // namespace

std::string in_words(const Notation& notation) {
  const std::string radix(radix_word(notation.radix));
  if (notation.width == 1) return radix + " bytes";
  if (notation.groups) return "hex bytes in groups, in the order they are written";
  return fmt::format("{} words of {} bytes, {} byte first", radix, notation.width,
                     notation.order == ByteOrder::low_first ? "low" : "high");
}

std::optional<std::vector<DumpByte>> bytes_of(const Number& number, const Notation& notation) {
  const int radix = radix_of(number, notation);
  const std::string_view digits = number.digits;
  if (is_unknown(digits)) {
    auto bytes = pairs_of(digits);
    if (bytes && !notation.groups && notation.order == ByteOrder::low_first)
      std::reverse(bytes->begin(), bytes->end());
    return bytes;
  }
  if (radix == 16 && notation.radix == 16 && notation.groups) return pairs_of(digits);
  // Words may be fewer than their width at the end of a row whose bytes do not fill them.
  const bool is_short = radix == 16 && notation.padded && notation.width > 1 &&
                        digits.size() % 2 == 0 && digits.size() < 2 * notation.width;
  const std::size_t width = is_short ? digits.size() / 2 : notation.width;
  const bool marked = number.mark != Mark::none && radix != notation.radix;
  if (!is_short && !marked && !has_right_digits(digits, radix, notation)) return std::nullopt;
  if (marked && notation.padded_marks && digits.size() != full_digits(radix, width))
    return std::nullopt;
  const auto value = value_in(digits, radix);
  if (!value) return std::nullopt;
  const std::uint64_t most = width == 8 ? ~std::uint64_t{0} : (std::uint64_t{1} << (8 * width)) - 1;
  if (*value > most) return std::nullopt;
  if (!number.negative) return split(*value, width, notation.order);
  if (*value > most / 2 + 1) return std::nullopt;
  return split(~*value + 1, width, notation.order);
}

namespace {

/// What the digits of all numbers have in common.
struct Digits {
  std::size_t all = 0;
  std::size_t letters = 0;  ///< numbers with a hex letter
  std::size_t nonzero = 0;  ///< numbers that say something
  std::size_t hex_marks = 0;
  std::size_t decimals = 0;      ///< without a mark, and not zero
  bool only_single = false;      ///< many numbers, all of one digit, and not all zero
  bool padded_marks = false;     ///< a marked one has a zero in front
  std::size_t leading_zero = 0;  ///< of two digits and more
  std::size_t singles = 0;       ///< of one digit, the zero left out
  std::map<std::size_t, std::size_t> lengths;
  std::size_t length = 0;  ///< the commonest
};

Digits look_at(const std::vector<Number>& numbers) {
  Digits digits;
  for (const Number& number : numbers) {
    if (is_unknown(number.digits)) continue;
    ++digits.all;
    ++digits.lengths[number.digits.size()];
    if (number.mark == Mark::hex) ++digits.hex_marks;
    if (number.mark == Mark::hex && number.digits.size() > 1 && number.digits.front() == '0')
      digits.padded_marks = true;
    if (number.mark == Mark::none && number.digits != "0") ++digits.decimals;
    if (number.digits.find_first_of("abcdefABCDEF") != std::string_view::npos) ++digits.letters;
    if (number.digits.find_first_not_of('0') != std::string_view::npos) ++digits.nonzero;
    if (number.digits.size() > 1 && number.digits.front() == '0') ++digits.leading_zero;
    if (number.digits.size() == 1 && number.digits != "0") ++digits.singles;
  }
  constexpr std::size_t many = 16;
  digits.only_single = digits.lengths.size() == 1 && digits.lengths.count(1) == 1 &&
                       digits.all >= many && digits.nonzero > 0;
  std::size_t most = 0;
  for (const auto& [length, count] : digits.lengths)
    if (count > most) {
      most = count;
      digits.length = length;
    }
  return digits;
}

class Candidates {
 public:
  Candidates(const std::vector<Number>& numbers, const ReadingOptions& options)
      : numbers_(numbers), options_(options) {}

  void offer(const Notation& notation, double bits = 0) {
    if (options_.radix && *options_.radix != notation.radix) return;
    if (options_.width && !notation.groups && *options_.width != notation.width) return;
    if (options_.order && notation.width > 1 && *options_.order != notation.order) return;
    // A listing has its damages; a notation that a tenth does not obey is another one.
    std::size_t wrong = 0;
    for (const Number& number : numbers_)
      if (!bytes_of(number, notation)) ++wrong;
    if (wrong * 10 > numbers_.size() && wrong > 1) return;
    found_.push_back({notation, bits});
  }

  void offer_orders(Notation notation, double bits = 0) {
    notation.order = ByteOrder::low_first;
    offer(notation, bits);
    notation.order = ByteOrder::high_first;
    offer(notation, bits);
  }

  std::vector<NotationCandidate> found() const { return found_; }

 private:
  const std::vector<Number>& numbers_;
  const ReadingOptions& options_;
  std::vector<NotationCandidate> found_;
};

void offer_hex(Candidates& candidates, const Digits& digits, const ReadingOptions& options) {
  const bool marked = digits.hex_marks * 2 > digits.all;
  const bool words = digits.length == 4 || digits.length == 8 || digits.length == 16;
  const Notation groups{16, 1, ByteOrder::high_first, true, true};
  if (words) {
    Notation word{16, digits.length / 2, ByteOrder::low_first, true, false};
    candidates.offer(word);
    word.order = ByteOrder::high_first;
    // Without a mark, a group says no more than the order of its digits.
    word.groups = !marked;
    candidates.offer(word);
  } else if (marked ? digits.length > 16 : digits.length != 1) {
    candidates.offer(groups);
  } else if (marked && digits.length == 2) {
    candidates.offer({16, 1, ByteOrder::high_first, true, false});
  }
  // A listing whose numbers are as short as they can be has no zero in front of any.
  // Numbers of one digit alone are halves of bytes as likely as bytes.
  if (digits.only_single) return;
  const bool short_ones = digits.leading_zero == 0 && (digits.singles > 0 || digits.length == 1);
  const bool hex = marked || digits.letters > 0 || options.radix == 16;
  if (short_ones && hex) {
    candidates.offer({16, 1, ByteOrder::high_first, false, false});
    if (digits.length > 2) candidates.offer_orders({16, 2, ByteOrder::low_first, false, false});
    if (digits.length > 4) candidates.offer_orders({16, 4, ByteOrder::low_first, false, false});
  } else if (short_ones) {
    candidates.offer({16, 1, ByteOrder::high_first, false, false}, -12);
  }
}

void offer_decimal(Candidates& candidates, const std::vector<Number>& numbers, const Digits& digits,
                   bool addressed) {
  if (digits.letters > 0 && digits.hex_marks == 0) return;
  if (digits.only_single) return;
  // Where marks say that all but zeros are hex, nothing is decimal.
  if (digits.hex_marks > 0 && digits.decimals == 0) return;
  std::uint64_t largest = 0;
  for (const Number& number : numbers)
    if (const auto value = value_in(number.digits, 10)) largest = std::max(largest, *value);
  const bool bytes_fit = largest <= 0xFF;
  // Words that all fit a smaller width have it, the likelier the more there are.
  const double doubt = -static_cast<double>(std::min<std::size_t>(digits.all, 60)) / 2;
  // Decimal numbers as short as they can be have various lengths; those that do not are hex.
  const bool alike = digits.lengths.size() == 1 && digits.decimals > 0;
  const double even = -3 * static_cast<double>(std::min<std::size_t>(digits.all, 12));
  for (const bool padded : {false, true}) {
    const double length = padded || !alike ? 0 : even;
    candidates.offer({10, 1, ByteOrder::high_first, padded, false, digits.padded_marks}, length);
    for (const std::size_t width : {std::size_t{2}, std::size_t{4}})
      if (addressed || !bytes_fit)
        candidates.offer_orders(
            {10, width, ByteOrder::low_first, padded, false, digits.padded_marks},
            length + (largest >> (4 * width) == 0 ? doubt : 0));
  }
}

/// Each number that says something would have shown an 8 or a 9, were it not octal, and another
/// digit than 0 and 1, were it not binary.
void offer_octal_and_binary(Candidates& candidates, const Digits& digits) {
  const double many = static_cast<double>(std::min<std::size_t>(digits.nonzero, 32));
  candidates.offer({8, 1, ByteOrder::high_first, true, false}, many / 2 - 2);
  candidates.offer({8, 1, ByteOrder::high_first, false, false}, many / 2 - 2);
  for (const std::size_t width : {std::size_t{2}, std::size_t{4}})
    candidates.offer_orders({8, width, ByteOrder::low_first, true, false}, many - 2);
  candidates.offer({2, 1, ByteOrder::high_first, true, false}, many);
  candidates.offer_orders({2, 2, ByteOrder::low_first, true, false}, many);
}

}  // namespace

std::vector<NotationCandidate> candidate_notations(const std::vector<Number>& numbers,
                                                   const ReadingOptions& options, bool addressed) {
  const Digits digits = look_at(numbers);
  Candidates candidates(numbers, options);
  offer_hex(candidates, digits, options);
  offer_decimal(candidates, numbers, digits, addressed);
  if (digits.hex_marks == 0) offer_octal_and_binary(candidates, digits);
  return candidates.found();
}

}  // namespace rtcmend
