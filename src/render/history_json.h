#pragma once

#include <string>

#include "layout/layout.h"
#include "render/json.h"
#include "upkeep/history.h"

namespace rtcmend {

/// `layout`, `entries`, `last_good`.
Json history_json(const History& history, const Layout& layout);

}  // namespace rtcmend
