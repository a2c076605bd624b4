#pragma once

#include <string>
#include <vector>

#include "layout/layout.h"
#include "terminal/ink.h"

namespace rtcmend {

/// One line for each layout: id and title.
std::string layouts_text(const std::vector<Layout>& layouts, const Ink& ink);
/// A layout in full: fields with their legal values, checks, notes, sources.
std::string layout_text(const Layout& layout, const Ink& ink);

}  // namespace rtcmend
