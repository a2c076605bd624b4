#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "check/check.h"

namespace rtcmend {

/// Reads one entry of "checks" that fits the schema. `where` is its place. Throws Error (input).
Check read_check_entry(const nlohmann::json& entry, const std::string& where);

}  // namespace rtcmend
