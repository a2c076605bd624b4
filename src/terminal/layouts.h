#pragma once

#include <string>
#include <vector>

#include "layout/trait.h"
#include "terminal/ink.h"

namespace rtcmend {

/// Each class with its families and their traits, on one screen.
std::string library_text(const std::vector<LayoutClass>& classes, const std::vector<Trait>& traits,
                         const Ink& ink);
/// A layout in full: fields with their legal values, checks, notes, sources.
std::string layout_text(const Layout& layout, const Ink& ink);

}  // namespace rtcmend
