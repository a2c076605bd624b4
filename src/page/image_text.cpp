#include "page/image_text.h"

#include "base/error.h"
#include "base/text.h"

namespace rtcmend {

namespace {

constexpr std::string_view unknown_byte = "??";

std::uint8_t byte_at(std::string_view digits, std::size_t at) {
  const auto byte = parse_hex(digits.substr(at, 2), 0xFF);
  if (!byte) refuse("page", "the bytes handed over are not hex digits");
  return static_cast<std::uint8_t>(*byte);
}

}  // namespace

std::string image_text(const Image& image) {
  std::string text;
  for (std::size_t i = 0; i < image.size(); ++i) {
    const auto byte = image.at(static_cast<Address>(i));
    text += byte ? hex2(*byte) : std::string(unknown_byte);
  }
  return text;
}

Image image_from(std::string_view text) {
  Image image(text.size() / 2);
  for (std::size_t i = 0; i < image.size(); ++i)
    if (text.substr(2 * i, 2) != unknown_byte)
      image.set(static_cast<Address>(i), byte_at(text, 2 * i));
  return image;
}

std::string hex_text(std::string_view bytes) {
  constexpr std::string_view digits = "0123456789ABCDEF";
  std::string text;
  text.reserve(2 * bytes.size());
  for (const char c : bytes) {
    const auto byte = static_cast<unsigned char>(c);
    text += digits[byte >> 4];
    text += digits[byte & 0x0F];
  }
  return text;
}

std::string bytes_from_hex(std::string_view digits) {
  if (digits.size() % 2 != 0) refuse("page", "the bytes handed over are cut in half");
  std::string bytes;
  bytes.reserve(digits.size() / 2);
  for (std::size_t i = 0; i < digits.size(); i += 2) bytes += static_cast<char>(byte_at(digits, i));
  return bytes;
}

}  // namespace rtcmend
