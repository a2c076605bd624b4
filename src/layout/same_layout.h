#pragma once

#include "layout/layout.h"

namespace rtcmend {

/// Whether two checks are the same but for their words: the same results in any image.
bool same_check(const Check& a, const Check& b);

/// Whether `special` says all that `plain` says, and more: the same checks, and every field of
/// `plain` at the same place beside fields of its own. Where no bytes speak for the extra fields,
/// `plain` is true as well.
bool refines(const Layout& special, const Layout& plain);

/// Whether `special` has every field of `plain` at the same bits, perhaps beside more of its own:
/// what `plain` reads and writes is then right under both.
bool includes_fields(const Layout& special, const Layout& plain);

}  // namespace rtcmend
