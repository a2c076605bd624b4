#include "layout/schema.h"

#include <nlohmann/json.hpp>
#include <string_view>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

#include "base/error.h"
#include "base/json.h"
#include "base/text.h"
#include "layout/library.h"

namespace rtcmend {

namespace {

using Adapter = valijson::adapters::NlohmannJsonAdapter;

/// valijson gives a path as "<root>", "[fields]", "[0]"; people and tools know JSON pointers.
std::string pointer(const std::vector<std::string>& context) {
  std::string path;
  for (std::string_view step : context) {
    if (step == "<root>") continue;
    if (step.starts_with('[') && step.ends_with(']')) step = step.substr(1, step.size() - 2);
    path += "/" + std::string(step);
  }
  return path;
}

}  // namespace

void check_against_schema(const nlohmann::json& layout, const std::string& where) {
  const auto schema_json = parse_json(embedded_text("schema/layout"), "schema/layout");
  valijson::Schema schema;
  valijson::SchemaParser().populateSchema(Adapter(schema_json), schema);
  valijson::ValidationResults results;
  if (valijson::Validator().validate(schema, Adapter(layout), &results)) return;

  // Every level above the culprit complains too; the longest path says where it is.
  valijson::ValidationResults::Error error, deepest;
  while (results.popError(error))
    if (error.context.size() > deepest.context.size()) deepest = error;
  std::string what = deepest.description;
  while (what.ends_with('.')) what.pop_back();
  refuse(json_place(where, printable(pointer(deepest.context))),
         "it does not fit the layout schema: " + printable(what),
         "rtcmend layouts print at-64 shows a layout that does; docs/layouts.md explains each key");
}

}  // namespace rtcmend
