#include "forms/raw.h"

#include <fmt/format.h>

#include "base/error.h"
#include "base/ranges.h"

namespace rtcmend {

Found read_raw(std::string_view content, const std::string& where, const ReadingOptions& options) {
  std::vector<DumpByte> bytes;
  bytes.reserve(content.size());
  for (const char c : content) bytes.emplace_back(static_cast<std::uint8_t>(c));
  return chip_in(bytes, where, options);
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
           {{"The forms hex, rows and json keep them unknown", std::nullopt},
            {"Or say what to write in their place", Act{Act::Kind::choose, "fill", "00"}}});
  std::vector<std::uint8_t> bytes(image.bytes().begin(), image.bytes().end());
  for (const Address at : unknown) bytes[at] = *fill;
  return bytes;
}

}  // namespace rtcmend
