#pragma once

#include <string>

#include "render/card.h"
#include "render/ink.h"

namespace rtcmend {

/// The tab and top edge of a record card, with the dump's name on the tab.
std::string tab(const std::string& name, const Ink& ink);
/// One line of a heading: a word and what it says, folded.
std::string heading_line(std::string_view word, std::string_view text);
/// Layout, dump, and verdict of a card, below its tab.
std::string heading(const Card& card, const Ink& ink);
/// Form, size and what is missing: "raw, 64 bytes; 14 of them unknown (00-0D)".
std::string dump_words(const Dump& dump);
/// Date, time and how the clock runs: "2031-05-14 09:30:00, Wednesday; running".
std::string clock_words(const ClockReading& clock);

}  // namespace rtcmend
