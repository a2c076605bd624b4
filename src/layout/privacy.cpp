#include "layout/privacy.h"

#include "layout/owners.h"

namespace rtcmend {

std::uint8_t private_bits(const Layout& layout, Address at) {
  std::uint8_t bits = 0;
  for (const Field& field : layout.fields)
    if (field.meaning == Meaning::concealed)
      bits = static_cast<std::uint8_t>(bits | bits_of(field, at));
  return bits;
}

Addresses private_bytes(const Layout& layout) {
  Addresses bytes;
  for (std::size_t i = 0; i < layout.size; ++i) {
    const auto at = static_cast<Address>(i);
    if (private_bits(layout, at) != 0) bytes.push_back(at);
  }
  return bytes;
}

std::uint8_t told_bits(const Layout& layout, Address at, std::uint8_t differing) {
  const std::uint8_t hidden = private_bits(layout, at);
  const bool any = (differing & hidden) != 0;
  return static_cast<std::uint8_t>((differing & ~hidden) | (any ? hidden : 0));
}

Image without_private(Image image, const Layout& layout) {
  for (const Address at : private_bytes(layout))
    if (image.contains(at)) image.forget(at);
  return image;
}

}  // namespace rtcmend
