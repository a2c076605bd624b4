#include "layout/schema.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <string_view>

#include "base/error.h"
#include "base/json.h"
#include "base/text.h"
#include "layout/json_schema.h"
#include "layout/library.h"

namespace rtcmend {

namespace {

/// Which schema, what it is of, and where its makings are explained.
struct Kind {
  std::string_view schema, of;
  Advice advice;
};

void check(const nlohmann::json& json, const Kind& kind, const std::string& where) {
  const auto schema = parse_json(embedded_text(kind.schema), std::string(kind.schema));
  const auto mismatch = find_mismatch(json, schema);
  if (!mismatch) return;
  refuse(json_place(where, printable(mismatch->at)),
         fmt::format("the {} schema {}", kind.of, mismatch->what),
         mismatch->remedy.empty() ? kind.advice : Advice(mismatch->remedy));
}

}  // namespace

void check_against_schema(const nlohmann::json& layout, const std::string& where) {
  check(layout,
        {"schema/layout",
         "layout",
         {{"docs/layouts.md explains each key; see a layout that keeps to it",
           Act{Act::Kind::list, "fields", "at"}}}},
        where);
}

void check_chips_against_schema(const nlohmann::json& chips, const std::string& where) {
  check(chips, {"schema/chips", "chip catalogue", "layouts/chips.json shows every key"}, where);
}

}  // namespace rtcmend
