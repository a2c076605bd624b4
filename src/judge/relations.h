#pragma once

#include <optional>

#include "base/image.h"
#include "layout/layout.h"

namespace rtcmend {

/// What a field that follows others should say, by what those others say now. Nothing when it
/// follows none, or when one of them is unknown, not in use or without a meaning.
std::optional<Value> expected_value(const Field& follower, const Layout& layout,
                                    const Image& image);

}  // namespace rtcmend
