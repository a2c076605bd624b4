#pragma once

#include <string>

#include "render/json.h"
#include "upkeep/retention.h"

namespace rtcmend {

/// `verdict`, `text`, `next`, `bits`, `changed`, `clock`, `cell_low`.
Json retention_json(const Retention& retention);

}  // namespace rtcmend
