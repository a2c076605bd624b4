#include "forms/sizes.h"

#include <fmt/format.h>

#include "base/error.h"

namespace rtcmend {

namespace {

bool is_chip_size(std::size_t bytes) {
  return bytes == Image::small_size || bytes == Image::large_size;
}

}  // namespace

bool is_dump_size(std::size_t bytes) {
  return is_chip_size(bytes) || is_chip_size(bytes + Image::ram_start);
}

Image image_by_count(const std::vector<DumpByte>& bytes, const std::string& where) {
  if (!is_dump_size(bytes.size()))
    refuse(where,
           fmt::format("it holds {} byte{}, and no dump of a clock chip has that size",
                       bytes.size(), bytes.size() == 1 ? "" : "s"),
           "a whole dump has 64 or 128 bytes; the RAM part alone, 0Eh and up, has 50 or 114");
  const std::size_t start = is_chip_size(bytes.size()) ? 0 : Image::ram_start;
  Image image(bytes.size() + start);
  for (std::size_t i = 0; i < bytes.size(); ++i)
    if (bytes[i]) image.set(static_cast<Address>(start + i), *bytes[i]);
  return image;
}

std::size_t chip_size_for(std::size_t highest) {
  return highest < Image::small_size ? Image::small_size : Image::large_size;
}

}  // namespace rtcmend
