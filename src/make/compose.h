#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/image.h"
#include "chip/clock.h"
#include "layout/layout.h"
#include "make/amend.h"

namespace rtcmend {

/// What is fitted in a machine: the input of compose.
struct Description {
  std::string layout;              ///< id, or a layout file
  std::optional<DateTime> clock;   ///< nothing = left at the chip's zero date, said in a note
  bool clock_now = false;          ///< "now": the caller fills `clock` in
  std::vector<std::pair<std::string, Value>> set;
  std::string note;
};

/// Reads a machine description (JSON, design's form). Throws Error with the JSON path.
Description parse_description(std::string_view text, const std::string& where);
/// The description as JSON text, for saving.
std::string to_json(const Description& description);

/// An image from the layout's defaults, a healthy chip's registers and the description. Refuses
/// (Error) unknown fields, illegal values, contradictions.
Image compose(const Description& description, const Layout& layout);

}  // namespace rtcmend
