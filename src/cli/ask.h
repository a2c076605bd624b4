#pragma once

#include <iosfwd>

#include "layout/layout.h"
#include "make/compose.h"

namespace rtcmend {

/// Asks what is fitted in a machine, one plain question at a time with the legal answers. Enter
/// keeps the value in brackets, "?" explains, "." keeps everything that is left, and so does the
/// end of the input. Every answer is tried in an image at once, so that a wrong one is asked again.
/// Refuses (Error, input) more than 64 KiB of answers.
Description ask(const Layout& layout, std::istream& answers, std::ostream& questions);

}  // namespace rtcmend
