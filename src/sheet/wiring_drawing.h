#pragma once

#include "sheet/html.h"

namespace rtcmend {

/// Chip, board and the parts beside as one SVG drawing, made from board/wiring.h: each wire by its
/// two pins, and the supply with its transistor.
Html wiring_drawing();

}  // namespace rtcmend
