#pragma once

#include <string>

#include "discover/draft.h"
#include "render/ink.h"
#include "render/json.h"

namespace rtcmend {

/// What a session showed: fields with their values, checks, what moves by itself, contradictions.
std::string trace_text(const Trace& trace, const Draft& draft, const Ink& ink);
/// docs/json.md lists the keys; `draft` is the layout file.
Json trace_json(const Trace& trace, const Draft& draft);

}  // namespace rtcmend
