#include "qr/codewords.h"

#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"

namespace rtcmend {

namespace {

/// In the order of their values.
constexpr std::string_view alphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";
constexpr unsigned mode_alphanumeric = 2;

std::uint32_t value_of(char c) {
  const std::size_t value = alphabet.find(c);
  if (value == std::string_view::npos)
    refuse("code",
           fmt::format("\"{}\" cannot stand in a code", printable(std::string_view(&c, 1))));
  return static_cast<std::uint32_t>(value);
}

/// Puts bits into bytes, the highest first.
class BitWriter {
 public:
  explicit BitWriter(Codewords& bytes) : bytes_(bytes) {}
  void put(std::uint32_t value, int bits) {
    for (int bit = bits - 1; bit >= 0; --bit, ++count_)
      if (value >> bit & 1) bytes_[count_ / 8] |= static_cast<std::uint8_t>(0x80 >> count_ % 8);
  }
  std::size_t count() const { return count_; }

 private:
  Codewords& bytes_;
  std::size_t count_ = 0;
};

/// Two characters are 11 bits, one left over is 6.
void put_text(std::string_view text, BitWriter& bits) {
  bits.put(mode_alphanumeric, 4);
  bits.put(static_cast<std::uint32_t>(text.size()), 9);
  std::size_t at = 0;
  for (; at + 1 < text.size(); at += 2)
    bits.put(value_of(text[at]) * 45 + value_of(text[at + 1]), 11);
  if (at < text.size()) bits.put(value_of(text[at]), 6);
}

/// The end mark of up to four zeros, zeros to the next byte, then the two bytes that fill.
void pad(Codewords& bytes, std::size_t bits) {
  std::uint8_t filler = 0xEC;
  for (std::size_t at = (std::min(bits + 4, data_codewords * 8) + 7) / 8; at < data_codewords;
       ++at) {
    bytes[at] = filler;
    filler ^= 0xEC ^ 0x11;
  }
}

/// In GF(256) with the polynomial x^8 + x^4 + x^3 + x^2 + 1.
std::uint8_t product(std::uint8_t a, std::uint8_t b) {
  unsigned sum = 0;
  for (int bit = 7; bit >= 0; --bit) {
    sum = sum << 1 ^ (sum >> 7) * 0x11D;
    sum ^= (b >> bit & 1U) * a;
  }
  return static_cast<std::uint8_t>(sum);
}

using Divisor = std::array<std::uint8_t, correction_codewords>;

/// (x - 1)(x - 2)(x - 4) ... without its highest term, highest first.
Divisor divisor() {
  Divisor terms{};
  terms.back() = 1;
  std::uint8_t root = 1;
  for (std::size_t i = 0; i < correction_codewords; ++i) {
    for (std::size_t j = 0; j < terms.size(); ++j) {
      terms[j] = product(terms[j], root);
      if (j + 1 < terms.size()) terms[j] ^= terms[j + 1];
    }
    root = product(root, 2);
  }
  return terms;
}

/// The remainder of the data divided by the divisor goes behind the data.
void put_correction(Codewords& bytes) {
  const Divisor terms = divisor();
  Divisor rest{};
  for (std::size_t i = 0; i < data_codewords; ++i) {
    const auto factor = static_cast<std::uint8_t>(bytes[i] ^ rest.front());
    for (std::size_t j = 0; j < rest.size(); ++j) {
      const std::uint8_t next = j + 1 < rest.size() ? rest[j + 1] : std::uint8_t{0};
      rest[j] = static_cast<std::uint8_t>(next ^ product(terms[j], factor));
    }
  }
  std::copy(rest.begin(), rest.end(), bytes.begin() + data_codewords);
}

}  // namespace

Codewords codewords_of(std::string_view text) {
  if (text.size() > most_characters)
    refuse("code",
           fmt::format("{} characters are more than the {} that a code of version 5-L holds",
                       text.size(), most_characters));
  Codewords bytes{};
  BitWriter bits(bytes);
  put_text(text, bits);
  pad(bytes, bits.count());
  put_correction(bytes);
  return bytes;
}

}  // namespace rtcmend
