#pragma once

#include <string>

#include "discover/draft.h"
#include "render/json.h"

namespace rtcmend {

/// docs/json/ says what every key means; `draft` is the layout file.
Json trace_json(const Trace& trace, const Draft& draft);

}  // namespace rtcmend
