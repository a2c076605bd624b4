#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <string_view>

namespace rtcmend {

/// Reads JSON from strangers strictly: a syntax error names its line, a key given twice and nesting
/// over 32 levels are refused, so is invalid UTF-8. Throws Error (input).
nlohmann::json parse_json(std::string_view text, const std::string& where);

/// "FILE at /fields/3/bits": a place inside a JSON file for messages. `path` is a JSON pointer.
std::string json_place(const std::string& where, const std::string& path);

}  // namespace rtcmend
