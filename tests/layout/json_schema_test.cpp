#include "layout/json_schema.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "layout/library.h"
#include "support/schema_rules.h"

using namespace rtcmend;
using nlohmann::json;

namespace {

/// "PLACE: WHAT / REMEDY" of a document and a schema as they stand in a file.
std::string complaint(std::string_view document, std::string_view schema) {
  const auto found = find_mismatch(json::parse(document), json::parse(schema));
  return found ? found->at + ": " + found->what + " / " + found->remedy : "fits";
}

std::vector<std::string> unheeded_in(std::string_view schema) {
  return unheeded(json::parse(schema));
}

}  // namespace

TEST_CASE("a wrong type is answered with what is wanted and what was found") {
  CHECK(complaint("[1, 2]", R"({"type": "string"})") ==
        ": wants text here, not a list of 2 entries / ");
  CHECK(complaint(R"({"a": 1})", R"({"type": "array"})") ==
        ": wants a list here, not an object of 1 key / ");
  CHECK(complaint("1.5", R"({"type": "integer"})") == ": wants a whole number here, not 1.5 / ");
  CHECK(complaint("\"yes\"", R"({"type": "boolean"})") ==
        ": wants true or false here, not \"yes\" / ");
  CHECK(complaint("true", R"({"type": ["integer", "null"]})") ==
        ": wants a whole number or null here, not true / ");
  CHECK(complaint("null", R"({"type": "object", "minProperties": 1})") ==
        ": wants an object of 1 or more keys here, not null / ");
}

TEST_CASE("a number out of bounds is answered with its bounds") {
  const std::string_view byte = R"({"type": "integer", "minimum": 0, "maximum": 255})";
  CHECK(complaint("255", byte) == "fits");
  CHECK(complaint("256", byte) == ": wants a whole number from 0 to 255 here, not 256 / ");
  CHECK(complaint("-1", byte) == ": wants a whole number from 0 to 255 here, not -1 / ");
  CHECK(complaint("0", R"({"type": "number", "minimum": 1})") ==
        ": wants a number of 1 or more here, not 0 / ");
  CHECK(complaint("2", R"({"type": "number", "maximum": 1.5})") ==
        ": wants a number of at most 1.5 here, not 2 / ");
  CHECK(complaint("0", R"({"type": "number", "minimum": 0, "exclusiveMinimum": true})") ==
        ": wants a number above 0 here, not 0 / ");
  CHECK(complaint("0", R"({"type": "number", "minimum": 0, "exclusiveMinimum": true,
                           "maximum": 9})") ==
        ": wants a number above 0 and up to 9 here, not 0 / ");
}

TEST_CASE("an enumeration lists its words and suggests the nearest") {
  const std::string_view order = R"({"enum": ["low-first", "high-first"]})";
  CHECK(complaint("\"high-fisrt\"", order) ==
        ": wants \"low-first\" or \"high-first\" here, not \"high-fisrt\" / high-first");
  CHECK(complaint("\"sideways\"", order) ==
        ": wants \"low-first\" or \"high-first\" here, not \"sideways\" / ");
  CHECK(complaint("9", R"({"enum": [8, 16]})") == ": wants 8 or 16 here, not 9 / ");
}

TEST_CASE("lengths are answered with how many may be and how many are") {
  CHECK(complaint("\"\"", R"({"type": "string", "minLength": 1, "maxLength": 80})") ==
        ": wants text of 1 to 80 characters here, not \"\" / ");
  // Characters are counted, not bytes: the sharp s is two of those.
  CHECK(complaint("\"\u00DF\u00DF\"", R"({"type": "string", "maxLength": 2})") == "fits");
  CHECK(complaint('"' + std::string(41, 'x') + '"', R"({"type": "string", "maxLength": 1})") ==
        ": wants text of at most 1 character here, not text of 41 characters / ");
  CHECK(complaint("[1]", R"({"type": "array", "minItems": 2, "maxItems": 2})") ==
        ": wants a list of 2 entries here, not a list of 1 entry / ");
  CHECK(complaint(R"({"a": 1})", R"({"type": "object", "maxProperties": 0})") ==
        ": wants an object of 0 keys here, not an object of 1 key / ");
}

TEST_CASE("a pattern is answered with its title, or as it stands") {
  const std::string_view byte =
      R"({"title": "a byte in two hex digits", "type": "string", "pattern": "^[0-9A-F]{2}$"})";
  CHECK(complaint("\"2E\"", byte) == "fits");
  CHECK(complaint("\"2E0\"", byte) == ": wants a byte in two hex digits here, not \"2E0\" / ");
  CHECK(complaint("\"b\"", R"({"type": "string", "pattern": "^a$"})") ==
        ": wants text that matches ^a$ here, not \"b\" / ");
}

TEST_CASE("text does not end at a NUL for a pattern") {
  CHECK(complaint(R"("a\u0000b")", R"({"type": "string", "pattern": "^a$"})") ==
        ": wants text that matches ^a$ here, not \"a\\x00b\" / ");
}

TEST_CASE("missing keys are named, an unknown one is answered with the nearest or all") {
  const std::string_view schema = R"({"type": "object", "required": ["at", "is"],
      "additionalProperties": false, "properties": {"at": {"type": "string"}, "is": {}}})";
  CHECK(complaint(R"({"at": "10"})", schema) == ": wants the key \"is\" here / ");
  CHECK(complaint("{}", schema) == ": wants the keys \"at\", \"is\" here / ");
  CHECK(complaint(R"({"at": "10", "iss": 1})", schema) == ": has no key \"iss\" here / is");
  CHECK(complaint(R"({"at": "10", "colour": 1})", schema) ==
        ": has no key \"colour\" here / at, is");
}

TEST_CASE("the place is a pointer into the document, and the rule one into the schema") {
  const json schema = json::parse(R"({"type": "object", "properties": {"parts": {
      "type": "array", "items": {"$ref": "#/definitions/part"}}},
      "definitions": {"part": {"type": "object", "additionalProperties": {"type": "boolean"}}}})");
  const auto found = find_mismatch(json::parse(R"({"parts": [{}, {"a/b~": 1}]})"), schema);
  REQUIRE(found);
  CHECK(found->at == "/parts/1/a~1b~0");
  CHECK(found->rule == "/definitions/part/additionalProperties/type");
  CHECK(found->what == "wants true or false here, not 1");
}

TEST_CASE("of several choices, the one of the value's type says what is wrong") {
  const json schema = json::parse(R"({"type": "array", "items": {"anyOf": [
      {"$ref": "#/definitions/byte"}, {"type": "object", "required": ["at"], "properties": {
        "at": {"$ref": "#/definitions/byte"}}}]},
      "definitions": {"byte": {"type": "integer", "minimum": 0, "maximum": 255}}})");
  CHECK_FALSE(find_mismatch(json::parse(R"([1, {"at": 2}])"), schema));
  const auto inside = find_mismatch(json::parse(R"([1, {"at": 256}])"), schema);
  REQUIRE(inside);
  CHECK(inside->at == "/1/at");
  CHECK(inside->rule == "/definitions/byte/maximum");
  const auto neither = find_mismatch(json::parse(R"(["x"])"), schema);
  REQUIRE(neither);
  CHECK(neither->at == "/0");
  CHECK(neither->what == "wants a whole number from 0 to 255 or an object here, not \"x\"");
}

TEST_CASE("of several kinds of object, the one with a key in common says what is wrong") {
  const std::string_view schema = R"({"anyOf": [
      {"type": "object", "required": ["path"], "properties": {"path": {"type": "string"}}},
      {"type": "object", "required": ["sum"], "properties": {"sum": {"type": "integer"}}}]})";
  CHECK(complaint(R"({"path": "a"})", schema) == "fits");
  CHECK(complaint(R"({"path": 1})", schema) == "/path: wants text here, not 1 / ");
  CHECK(complaint(R"({"sum": "a"})", schema) == "/sum: wants a whole number here, not \"a\" / ");
  CHECK(complaint("{}", schema) ==
        ": wants an object or an object here, not an object of 0 keys / ");
}

TEST_CASE("numbers beyond 64 bits are beyond every bound") {
  CHECK(complaint("1e300", R"({"enum": [8, 16]})") == ": wants 8 or 16 here, not 1e+300 / ");
  CHECK(complaint("-1e300", R"({"type": "number", "minimum": 0})") ==
        ": wants a number of 0 or more here, not -1e+300 / ");
  CHECK(complaint("18446744073709551615", R"({"type": "integer", "maximum": 255})") ==
        ": wants a whole number of at most 255 here, not 18446744073709551615 / ");
}

TEST_CASE("the schemas of layouts and chips say nothing that would not be heeded") {
  for (const char* name : {"schema/layout", "schema/chips"}) {
    INFO(name);
    const json schema = json::parse(embedded_text(name));
    CHECK(unheeded(schema).empty());
    CHECK(untyped(schema).empty());
  }
}

TEST_CASE("a schema that says more than is heeded is found out") {
  using Places = std::vector<std::string>;
  CHECK(unheeded_in(R"({"type": "string", "format": "date"})") == Places{"/format"});
  CHECK(unheeded_in(R"({"properties": {"a": {"const": 1}}})") == Places{"/properties/a/const"});
  CHECK(unheeded_in(R"({"items": {"anyOf": [{"not": {}}]}})") == Places{"/items/anyOf/0/not"});
  CHECK(unheeded_in(R"({"definitions": {"a": {"oneOf": []}}})") == Places{"/definitions/a/oneOf"});
  CHECK(unheeded_in(R"({"additionalProperties": {"if": {}}})") ==
        Places{"/additionalProperties/if"});
  // Draft 4 says it with a word, later drafts with a number.
  CHECK(unheeded_in(R"({"minimum": 0, "exclusiveMinimum": 0})") == Places{"/exclusiveMinimum"});
  CHECK(unheeded_in(R"({"exclusiveMinimum": true})") == Places{"/exclusiveMinimum"});
  CHECK(unheeded_in(R"({"pattern": "["})") == Places{"/pattern"});
  CHECK(unheeded_in(R"({"type": "text"})") == Places{"/type"});
  CHECK(unheeded_in(R"({"items": [{"type": "string"}]})") == Places{"/items"});
  CHECK(unheeded_in(R"({"items": {"$ref": "#/definitions/none"}})") == Places{"/items/$ref"});
  CHECK(unheeded_in(R"({"items": {"$ref": "other.json#/a"}})") == Places{"/items/$ref"});
  CHECK(untyped(json::parse(R"({"type": "array", "items": {"minimum": 1}})")) == Places{"/items"});
}
