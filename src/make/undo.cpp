#include "make/undo.h"

#include <fmt/format.h>
#include <optional>

#include "base/error.h"
#include "base/text.h"
#include "judge/rearrange.h"

namespace rtcmend {

namespace {

constexpr const char* accepted = "shift=1, shift=-1, nibbles or bit-order";
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

}  // namespace

Image undo(const Image& image, std::string_view what) {
  if (what.starts_with(shift_word)) return undo_shift(image, what.substr(shift_word.size()));
  if (what == "nibbles") return with_nibbles_swapped(image);
  if (what == "bit-order") return with_bits_reversed(image);
  refuse_choice("undo", fmt::format("\"{}\" is nothing that can be undone", printable(what)),
                accepted);
}

}  // namespace rtcmend
