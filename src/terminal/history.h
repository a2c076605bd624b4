#pragma once

#include <string>

#include "layout/layout.h"
#include "terminal/ink.h"
#include "upkeep/history.h"

namespace rtcmend {

/// What the history was asked of.
struct HistorySource {
  std::string folder;
  std::string layout{};  ///< as it was named; empty = told by the bytes
};

/// The dumps and notes in the order of their dates, what changed between them, and which image to
/// start from.
std::string history_text(const History& history, const HistorySource& source, const Layout& layout,
                         const Ink& ink);

}  // namespace rtcmend
