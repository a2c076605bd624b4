// Our reading of JSON Schema against the cases that the makers of validators share (Debian's
// package json-schema-test-suite, draft 4).

#include <catch2/catch.hpp>
#include <fstream>
#include <nlohmann/json.hpp>

#include "layout/json_schema.h"
#include "support/schema_rules.h"

using namespace rtcmend;
using nlohmann::json;

namespace {

/// The suite's groups for one keyword, each a schema and documents that fit it or do not.
json groups(const std::string& keyword) {
  std::ifstream file("/usr/share/json-schema-test-suite/tests/draft4/" + keyword + ".json");
  INFO(keyword);
  REQUIRE(file);
  return json::parse(file);
}

struct Tally {
  int groups = 0, documents = 0, left_out = 0;
};

/// Holds every document of the groups whose schema keeps to our keywords against it.
void hold(const std::string& keyword, Tally& tally) {
  for (const json& group : groups(keyword)) {
    if (!unheeded(group["schema"]).empty()) {
      ++tally.left_out;
      continue;
    }
    ++tally.groups;
    for (const json& test : group["tests"]) {
      INFO(keyword << ": " << group["description"] << ": " << test["description"]);
      CHECK(!find_mismatch(test["data"], group["schema"]) == test["valid"].get<bool>());
      ++tally.documents;
    }
  }
}

}  // namespace

TEST_CASE("every keyword of our schemas means what the shared cases say") {
  Tally tally;
  for (const char* keyword :
       {"ref", "type", "enum", "anyOf", "properties", "required", "minProperties", "maxProperties",
        "items", "minItems", "maxItems", "minLength", "maxLength", "pattern", "minimum", "maximum",
        "additionalProperties"})
    hold(keyword, tally);
  // Those left out use other keywords beside: lists of schemas for the items of a list, patterns
  // for keys, both ends excluded, references into other files.
  CHECK(tally.groups == 36);
  CHECK(tally.documents == 156);
  CHECK(tally.left_out == 12);
}
