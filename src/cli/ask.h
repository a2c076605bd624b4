#pragma once

#include <iosfwd>

#include "layout/layout.h"
#include "make/compose.h"

namespace rtcmend {

/// Asks what is fitted in a machine, one plain question at a time with the legal answers. Enter
/// keeps the value in brackets, "?" explains, "<" goes back, "." keeps everything that is left.
/// Every answer is tried in an image at once, so that a wrong one is asked again. At the end it
/// shows what was settled and asks for consent, which "." has given already. Refuses (Error, input)
/// an end of the answers before that, consent withheld, and more than 64 KiB of answers.
Description ask(const Layout& layout, std::istream& answers, std::ostream& questions);

/// The same questions about an image that is there: what is in brackets is what it holds, and only
/// what was answered otherwise is in the result. Its clock is left as it is unless a time is given.
Description ask_changes(const Image& image, const Layout& layout, std::istream& answers,
                        std::ostream& questions);

}  // namespace rtcmend
