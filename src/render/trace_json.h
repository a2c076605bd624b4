#pragma once

#include <string>

#include "discover/draft.h"
#include "render/json.h"

namespace rtcmend {

/// docs/json.md lists the keys; `draft` is the layout file.
Json trace_json(const Trace& trace, const Draft& draft);

}  // namespace rtcmend
