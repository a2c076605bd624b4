#include "forms/raw.h"

#include <fmt/format.h>

#include "base/error.h"
#include "base/ranges.h"
#include "forms/sizes.h"

namespace rtcmend {

Image read_raw(std::string_view content, const std::string& where) {
  if (content.size() == Image::small_size || content.size() == Image::large_size)
    return Image(std::span(reinterpret_cast<const std::uint8_t*>(content.data()), content.size()));
  std::vector<DumpByte> bytes;
  for (const char c : content) bytes.emplace_back(static_cast<std::uint8_t>(c));
  return image_by_count(bytes, where);
}

std::string write_raw(const Image& image, std::optional<std::uint8_t> fill) {
  const std::vector<std::uint8_t> bytes = filled_bytes(image, fill, "raw");
  return {bytes.begin(), bytes.end()};
}

std::vector<std::uint8_t> filled_bytes(const Image& image, std::optional<std::uint8_t> fill,
                                       std::string_view form) {
  const Addresses unknown = image.unknown();
  if (!unknown.empty() && !fill)
    refuse(std::string(form),
           fmt::format("{} {} unknown, and this form has no way to say so", to_prose(unknown),
                       unknown.size() == 1 ? "is" : "are"),
           "--fill 00 writes 00 in their place; the forms hex, rows and json keep them unknown");
  std::vector<std::uint8_t> bytes(image.bytes().begin(), image.bytes().end());
  for (const Address at : unknown) bytes[at] = *fill;
  return bytes;
}

}  // namespace rtcmend
