#pragma once

#include <string>
#include <vector>

#include "layout/layout.h"

namespace rtcmend {

/// Where each field and check of a layout was read, for messages: "FILE at /fields/3".
struct Origins {
  std::string layout;
  std::vector<std::string> fields;
  std::vector<std::string> checks;
};

/// What a schema cannot say: everything inside the chip and beside the clock, no name and no bit
/// claimed twice, no check over its own stored bytes, references that lead somewhere, defaults that
/// are legal. Throws Error (input) at the first thing that is wrong.
void validate(const Layout& layout, const Origins& origins);

}  // namespace rtcmend
