#pragma once

#include "layout/layout.h"

namespace rtcmend {

/// Whether a byte belongs to a field that holds a password or its check word: it is never printed.
bool concealed(const Layout& layout, Address at);

}  // namespace rtcmend
