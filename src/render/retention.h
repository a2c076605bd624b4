#pragma once

#include <string>

#include "render/ink.h"
#include "render/json.h"
#include "upkeep/retention.h"

namespace rtcmend {

/// What became of the bytes without power, and the next measurement to make.
std::string retention_text(const Retention& retention, const Ink& ink);
/// `verdict`, `text`, `next`, `bits`, `changed`, `clock`, `cell_low`.
Json retention_json(const Retention& retention);

}  // namespace rtcmend
