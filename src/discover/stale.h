#pragma once

#include <span>

#include "discover/draft.h"

namespace rtcmend {

/// Holds an earlier draft against new dumps. A check that does not hold in all of them is narrowed
/// to the widest range inside the old one that does and still covers the settings it covered, or
/// dropped; a byte that was taken for never changing and is another one now is dropped. `layout` is
/// the draft as loaded, and changes with it.
void retest(std::span<const Image> dumps, Layout& layout, Draft& draft);

}  // namespace rtcmend
