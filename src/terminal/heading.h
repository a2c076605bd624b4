#pragma once

#include <string>

#include "render/card.h"
#include "terminal/ink.h"

namespace rtcmend {

/// The tab and top edge of a record card, with the dump's name on the tab.
std::string tab(const std::string& name, const Ink& ink);
/// One line of a heading: a word and what it says, folded.
std::string heading_line(std::string_view word, std::string_view text);
/// Layout, dump, and verdict of a card, below its tab.
std::string heading(const Card& card, const Ink& ink);

}  // namespace rtcmend
