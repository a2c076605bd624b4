#pragma once

#include <optional>
#include <string>

#include "render/card.h"
#include "terminal/ink.h"

namespace rtcmend {

/// The tab and top edge of a record card, with the dump's name on the tab.
std::string tab(const std::string& name, const Ink& ink);
/// One line of a heading: a word and what it says, folded.
std::string heading_line(std::string_view word, std::string_view text);
/// The line above what is judged that has no heading: that its layout is from a file, and from
/// which. Empty for a built-in layout.
std::string layout_mark(const Layout& layout);
std::string layout_mark(const std::optional<Layout>& layout);
/// Layout, dump, and verdict of a card, below its tab.
std::string heading(const Card& card, const Ink& ink);

}  // namespace rtcmend
