#include "layout/schema.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <string_view>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

#include "base/error.h"
#include "base/json.h"
#include "base/near_miss.h"
#include "base/text.h"
#include "layout/library.h"
#include "layout/unknown_key.h"

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

/// Which schema, what it is of, and where its makings are explained.
struct Kind {
  std::string_view schema, of, remedy;
};

void check(const nlohmann::json& json, const Kind& kind, const std::string& where) {
  const auto schema_json = parse_json(embedded_text(kind.schema), std::string(kind.schema));
  valijson::Schema schema;
  valijson::SchemaParser().populateSchema(Adapter(schema_json), schema);
  valijson::ValidationResults results;
  if (valijson::Validator().validate(schema, Adapter(json), &results)) return;

  if (const auto unknown = find_unknown_key(json, schema_json))
    refuse(json_place(where, printable(unknown->path)),
           fmt::format("the {} schema has no key \"{}\" here", kind.of, printable(unknown->key)),
           near_or_all(unknown->key, unknown->known));

  // Every level above the culprit complains too; the longest path says where it is.
  valijson::ValidationResults::Error error, deepest;
  while (results.popError(error))
    if (error.context.size() > deepest.context.size()) deepest = error;
  std::string what = deepest.description;
  while (what.ends_with('.')) what.pop_back();
  refuse(json_place(where, printable(pointer(deepest.context))),
         fmt::format("it does not fit the {} schema: {}", kind.of, printable(what)),
         std::string(kind.remedy));
}

}  // namespace

void check_against_schema(const nlohmann::json& layout, const std::string& where) {
  check(layout,
        {"schema/layout", "layout",
         "rtcmend layouts print at-64 shows a layout that does; docs/layouts.md explains each key"},
        where);
}

void check_chips_against_schema(const nlohmann::json& chips, const std::string& where) {
  check(chips, {"schema/chips", "chip catalogue", "layouts/chips.json shows every key"}, where);
}

}  // namespace rtcmend
