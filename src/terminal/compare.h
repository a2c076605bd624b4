#pragma once

#include <string>

#include "identify/identify.h"
#include "judge/compare.h"
#include "layout/layout.h"
#include "terminal/ink.h"

namespace rtcmend {

/// Whether the chip holds what was wanted, and byte by byte where it does not. Bytes of
/// passwords are "**".
std::string compare_text(const Comparison& comparison, const Layout& layout, const Ink& ink);
/// The layouts in the order of their evidence.
std::string identify_text(const Identification& identification, const Ink& ink);

}  // namespace rtcmend
