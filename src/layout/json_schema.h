#pragma once

#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>

namespace rtcmend {

/// The first thing in a document that its schema does not allow.
struct Mismatch {
  std::string at;      ///< JSON pointer into the document
  std::string rule;    ///< JSON pointer into the schema, its last step the keyword that refuses
  std::string what;    ///< to follow "the schema": "wants a list here, not \"10-1F\""
  std::string remedy;  ///< what could stand there; may be empty
};

/// Holds a document against a JSON Schema of draft 4. It knows the keywords that our schemas use;
/// what else a schema says it may not heed, so tests keep ours to those keywords.
std::optional<Mismatch> find_mismatch(const nlohmann::json& document, const nlohmann::json& schema);

}  // namespace rtcmend
