#pragma once

#include <string>
#include <vector>

#include "judge/layout_evidence.h"
#include "layout/trait.h"
#include "terminal/ink.h"

namespace rtcmend {

/// Each class with its families and their traits, on one screen.
std::string library_text(const std::vector<LayoutClass>& classes, const std::vector<Trait>& traits,
                         const Ink& ink);
/// One's own layouts, a line each; nothing when there are none.
std::string own_layouts_text(const std::vector<Layout>& own, const Ink& ink);
/// What a layout says of how far it is to be believed: its notes and warnings. May be empty.
std::string caveats_text(const Layout& layout);
/// What dumps say for a layout, a line for each check and field.
std::string evidence_text(const LayoutEvidence& evidence);
/// A layout in full: fields with their legal values, checks, notes, sources.
std::string layout_text(const Layout& layout, const Ink& ink);

}  // namespace rtcmend
