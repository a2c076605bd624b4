#pragma once

#include <vector>

#include "desk/ready.h"
#include "forms/form.h"
#include "judge/finding.h"

namespace rtcmend {

/// What a file says against its own bytes, as findings about its reading: they stay with the image
/// whatever is changed, and stop its writing.
std::vector<Finding> confessed(const Confession& confession);

/// What a file must say that is written although somebody had to insist, and that its bytes would
/// hide: that the dump was misread, and that a check was made to hold over what nothing proved.
/// What the bytes show by themselves goes without saying.
Confession confession(const Readiness& readiness, const std::vector<Finding>& reading);

}  // namespace rtcmend
