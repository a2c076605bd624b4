#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

namespace rtcmend {

/// Holds a layout or part against layouts/schema/layout.json. Throws Error (input) whose `where` is
/// the file with the JSON path of the deepest mismatch.
void check_against_schema(const nlohmann::json& layout, const std::string& where);

/// The same for the catalogue of chips and layouts/schema/chips.json.
void check_chips_against_schema(const nlohmann::json& chips, const std::string& where);

}  // namespace rtcmend
