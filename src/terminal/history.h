#pragma once

#include <string>

#include "layout/layout.h"
#include "terminal/ink.h"
#include "upkeep/history.h"

namespace rtcmend {

/// The dumps and notes in the order of their dates, what changed between them, and which image to
/// start from.
std::string history_text(const History& history, const std::string& folder, const Layout& layout,
                         const Ink& ink);

}  // namespace rtcmend
