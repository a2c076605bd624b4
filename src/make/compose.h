#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/image.h"
#include "chip/clock.h"
#include "layout/layout.h"
#include "make/amend.h"

namespace rtcmend {

/// What the clock is set to when nobody says what time it is: a date that exists, so that the image
/// is sound, and so old that it catches the eye.
inline constexpr DateTime first_moment{1980, 1, 1, 0, 0, 0};

/// What is fitted in a machine: the input of compose.
struct Description {
  std::string origin;               ///< the file it came from, for messages; may be empty
  std::string layout;               ///< id, or a layout file; empty = not said
  std::optional<std::size_t> size;  ///< of the chip; nothing = the least that the layout needs
  std::optional<DateTime> clock;    ///< nothing = the clock starts at first_moment
  bool clock_now = false;           ///< "now": the caller fills `clock` in
  std::vector<std::pair<std::string, Value>> set;
  std::string note;
};

/// Reads a machine description: a JSON object with the keys layout, size (64 or 128), clock ("now"
/// or a date and time), set (fields and their values) and note, all optional. Throws Error with the
/// JSON path.
Description parse_description(std::string_view text, const std::string& where);
/// The description as JSON text, for saving.
std::string to_json(const Description& description);

/// An image from the layout's defaults, a healthy chip's registers and the description. Refuses
/// (Error) unknown fields, illegal values, contradictions.
Image compose(const Description& description, const Layout& layout);

}  // namespace rtcmend
