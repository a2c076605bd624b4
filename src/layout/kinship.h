#pragma once

#include "layout/layout.h"

namespace rtcmend {

/// Whether `special` says all that `plain` says, and more: the same checks, and every field of
/// `plain` at the same place beside fields of its own. Where no bytes speak for the extra fields,
/// `plain` is true as well.
bool refines(const Layout& special, const Layout& plain);

}  // namespace rtcmend
