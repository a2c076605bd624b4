#pragma once

#include <string>

#include "chip/part.h"

namespace rtcmend {

/// "bare", "potted", "module".
std::string package_word(Package package);
/// "outside", "built in", "rechargeable".
std::string cell_word(CellPlace cell);

}  // namespace rtcmend
