#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/image.h"
#include "chip/clock.h"
#include "layout/layout.h"

namespace rtcmend {

/// A field and the value it shall have.
struct Setting {
  std::string field;
  Value value;
};

/// Splits "FIELD=VALUE" and parses the value. Refuses (Error) an unknown field with the nearest
/// names, an illegal value with the legal ones.
Setting parse_setting(const Layout& layout, std::string_view text);

/// The image with the fields set, what follows from them derived, the clock set and running when a
/// time is given (century and weekday with it), and every check sealed. Refuses (Error) a field set
/// twice to different values and a value that contradicts what it follows from.
Image amend(const Image& image, const Layout& layout, const std::vector<Setting>& settings,
            std::optional<DateTime> clock = std::nullopt);

}  // namespace rtcmend
