#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/image.h"
#include "layout/layout.h"

namespace rtcmend {

/// One byte that is not what was wanted.
struct Difference {
  Address at = 0;
  std::optional<std::uint8_t> wanted, found;  ///< nothing = unknown
  std::vector<std::string> fields;            ///< ids of the fields and checks it belongs to
  std::string ignored;                        ///< why it does not matter; empty when it does
};

/// What became of a chip, by what differs.
enum class Lost {
  nothing,
  clock,    ///< the clock's own bytes and the century alone: it was reset, and the RAM kept
  settings  ///< bits of the RAM
};

/// "nothing", "clock", "settings".
std::string_view name(Lost lost);

struct Comparison {
  bool equal = true;  ///< nothing that matters differs
  std::vector<Difference> differences;
  Lost lost = Lost::nothing;  ///< among what matters
};

/// After writing a chip: what differs, with the reason where it does not matter (it ticks, it
/// cannot be written, it is volatile, it is unknown, the layout does not use it). Of 64 bytes
/// against 128 the lower 64 are compared. Refuses (Error) an image that is too small for the
/// layout.
Comparison compare(const Image& wanted, const Image& found, const Layout& layout);

}  // namespace rtcmend
