#include "base/image.h"

#include <algorithm>
#include <cassert>
#include <fmt/format.h>

#include "base/error.h"

namespace rtcmend {

Image::Image(std::size_t size) : size_(size) {
  if (size != small_size && size != large_size)
    refuse("image", fmt::format("a clock chip holds 64 or 128 bytes, not {}", size));
}

Image::Image(std::span<const std::uint8_t> bytes) : Image(bytes.size()) {
  std::copy(bytes.begin(), bytes.end(), bytes_.begin());
  known_ = ~std::bitset<large_size>() >> (large_size - size_);
}

std::optional<std::uint8_t> Image::at(Address at) const {
  if (!known(at)) return std::nullopt;
  return bytes_[at];
}

void Image::set(Address at, std::uint8_t value) {
  assert(contains(at));
  bytes_[at] = value;
  known_.set(at);
}

void Image::forget(Address at) {
  assert(contains(at));
  bytes_[at] = 0;
  known_.reset(at);
}

Image Image::with_size(std::size_t size) const {
  Image other(size);
  for (std::size_t i = 0; i < std::min(size, size_); ++i)
    if (const auto byte = at(static_cast<Address>(i))) other.set(static_cast<Address>(i), *byte);
  return other;
}

Addresses Image::unknown() const {
  Addresses missing;
  for (std::size_t i = 0; i < size_; ++i)
    if (!known_[i]) missing.push_back(static_cast<Address>(i));
  return missing;
}

}  // namespace rtcmend
