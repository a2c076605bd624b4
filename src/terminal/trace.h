#pragma once

#include <string>

#include "discover/draft.h"
#include "terminal/ink.h"

namespace rtcmend {

/// What a session showed: fields with their values, checks, what moves by itself, contradictions.
std::string trace_text(const Trace& trace, const Draft& draft, const Ink& ink);

}  // namespace rtcmend
