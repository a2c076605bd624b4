#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

namespace rtcmend {

/// The keywords that our schemas may use: those that find_mismatch heeds and has words for.
const std::vector<std::string>& schema_keywords();

/// What a schema says that find_mismatch would pass over in silence, each with its place: another
/// keyword, one used otherwise than in draft 4 or than we use it, a pattern that cannot be read, a
/// reference to nothing.
std::vector<std::string> unheeded(const nlohmann::json& schema);

/// Where a schema does not say of what type a value is, so that a message could not say it either.
std::vector<std::string> untyped(const nlohmann::json& schema);

}  // namespace rtcmend
