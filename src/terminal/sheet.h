#pragma once

#include <string>

#include "sheet/sheet.h"

namespace rtcmend {

/// The bench sheet for a printer of plain text: no colour, 80 columns, a form feed between what the
/// chip says and what is for hands.
std::string sheet_text(const Sheet& sheet);

}  // namespace rtcmend
