#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "check/condition.h"
#include "layout/layout.h"

namespace rtcmend {

// Each reads one JSON entry that fits the schema. `where` is its place, for what a schema cannot
// see. Throws Error (input).

Field read_field_entry(const nlohmann::json& entry, const std::string& where);
DriveType read_drive_type(const nlohmann::json& entry);
Condition read_condition(const nlohmann::json& entry, const std::string& where);
/// "10-2D" that must be a range.
Range read_range(const nlohmann::json& text, const std::string& where);

}  // namespace rtcmend
