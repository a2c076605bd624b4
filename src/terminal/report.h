#pragma once

#include <string>

#include "render/report.h"
#include "terminal/ink.h"

namespace rtcmend {

/// What was written, what changed, what is still to be said about it, and what to do next.
std::string report_text(const Report& report, const Ink& ink);

}  // namespace rtcmend
