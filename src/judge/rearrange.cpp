#include "judge/rearrange.h"

#include <cassert>

namespace rtcmend {

namespace {

std::uint8_t swap_nibbles(std::uint8_t byte) {
  return static_cast<std::uint8_t>(byte << 4 | byte >> 4);
}

std::uint8_t reverse_bits(std::uint8_t byte) {
  unsigned reversed = 0;
  for (unsigned bit = 0; bit < 8; ++bit)
    if ((byte >> bit & 1U) != 0) reversed |= 0x80U >> bit;
  return static_cast<std::uint8_t>(reversed);
}

template <typename Change>
Image with_each_byte(const Image& image, Change change) {
  Image changed = image;
  for (std::size_t i = 0; i < image.size(); ++i) {
    const auto at = static_cast<Address>(i);
    if (const auto byte = image.at(at)) changed.set(at, change(*byte));
  }
  return changed;
}

/// An image of another size or order: the byte at `i` is the one at `source(i)`.
template <typename Source>
Image gathered(const Image& image, std::size_t size, Source source) {
  Image result(size);
  for (std::size_t i = 0; i < size; ++i)
    if (const auto byte = image.at(static_cast<Address>(source(i))))
      result.set(static_cast<Address>(i), *byte);
  return result;
}

}  // namespace

Image rotated(const Image& image, int places) {
  const auto size = static_cast<int>(image.size());
  const int back = size - (places % size + size) % size;
  return gathered(image, image.size(), [&](std::size_t i) {
    return (i + static_cast<std::size_t>(back)) % image.size();
  });
}

Image with_nibbles_swapped(const Image& image) {
  return with_each_byte(image, swap_nibbles);
}

Image with_bits_reversed(const Image& image) {
  return with_each_byte(image, reverse_bits);
}

Image repeated(const Image& image) {
  assert(image.size() == Image::small_size);
  return gathered(image, Image::large_size, [](std::size_t i) { return i % Image::small_size; });
}

}  // namespace rtcmend
