#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "layout/schema_node.h"

namespace rtcmend {

/// Why a schema refuses a value, in our own words.
struct MismatchWords {
  std::string what;    ///< to follow "the schema": "wants the key \"source\" here"
  std::string remedy;  ///< what could stand there; may be empty
};

/// The words for the keyword of `node` that refuses `value`. `key`: the one that may not be there,
/// when the keyword is "additionalProperties".
MismatchWords mismatch_words(const nlohmann::json& value, const SchemaNode& node,
                             const std::string& keyword, const std::string& key);

/// Whether a value is of a schema's "type", or of one of its types; a schema without takes any.
bool is_of_type(const nlohmann::json& value, const nlohmann::json& schema);

}  // namespace rtcmend
