#include "make/undo.h"

#include <fmt/format.h>
#include <optional>

#include "base/error.h"
#include "base/text.h"
#include "judge/rearrange.h"

namespace rtcmend {

namespace {

constexpr const char* accepted = "shift=1, shift=-1, nibbles, bit-order or mirror";
constexpr std::string_view shift_word = "shift=";

Image undo_shift(const Image& image, std::string_view number) {
  const auto places = parse_integer(number);
  const auto size = static_cast<std::int64_t>(image.size());
  if (!places || *places == 0 || *places <= -size || *places >= size)
    refuse_choice(
        "undo",
        fmt::format("\"{}\" is not a shift within {} bytes", printable(number), image.size()),
        accepted);
  return rotated(image, -static_cast<int>(*places));
}

/// The first RAM byte that is not what stands 64 higher. The clock ticks while it is read, so its
/// bytes do not count.
std::optional<Address> first_unlike(const Image& image) {
  for (Address at = Image::ram_start; at < Image::small_size; ++at)
    if (image.at(at) != image.at(static_cast<Address>(at + Image::small_size))) return at;
  return std::nullopt;
}

Image undo_mirror(const Image& image) {
  if (image.size() != Image::large_size)
    refuse_choice("undo", "the image has 64 bytes, so there is no second half to drop");
  if (const auto at = first_unlike(image))
    refuse_choice(
        "undo",
        fmt::format("byte {} differs from byte {}: the halves are no mirror of each other",
                    hex_prose(*at), hex_prose(static_cast<Address>(*at + Image::small_size))),
        "leave the image as it is");
  return image.with_size(Image::small_size);
}

}  // namespace

Image undo(const Image& image, std::string_view what) {
  if (what.starts_with(shift_word)) return undo_shift(image, what.substr(shift_word.size()));
  if (what == "nibbles") return with_nibbles_swapped(image);
  if (what == "bit-order") return with_bits_reversed(image);
  if (what == "mirror") return undo_mirror(image);
  refuse_choice("undo", fmt::format("\"{}\" is nothing that can be undone", printable(what)),
                accepted);
}

}  // namespace rtcmend
