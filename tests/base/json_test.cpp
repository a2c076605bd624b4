#include "base/json.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "base/error.h"

using namespace rtcmend;

namespace {

std::string complaint(std::string_view text) {
  try {
    parse_json(text, "file");
  } catch (const Error& error) {
    return error.what();
  }
  return "accepted";
}

std::string nested(std::size_t levels) {
  return std::string(levels, '[') + std::string(levels, ']');
}

}  // namespace

TEST_CASE("JSON of 32 levels is read, of 33 refused") {
  CHECK(complaint(nested(32)) == "accepted");
  CHECK(complaint(nested(33)) == "file: it is nested deeper than 32 levels");
  CHECK(complaint(std::string(500000, '[')) == "file: it is nested deeper than 32 levels");
}

TEST_CASE("a key may stand once in each object") {
  CHECK(complaint(R"([{"a": 1}, {"a": {"a": 2}}])") == "accepted");
  CHECK(complaint(R"({"b": {"a": 1}, "a": 2, "b": 3})") == "file: the key \"b\" is given twice");
  CHECK(complaint("{\"\\u0061\": 1, \"a\": 2}") == "file: the key \"a\" is given twice");
}

TEST_CASE("what is no JSON is refused with its line") {
  CHECK(complaint("{\n\"a\": nan}") == "file:2: it is not valid JSON");
  CHECK(complaint("[\n\n1e999]") == "file:3: it is not valid JSON");
  CHECK(complaint("[1]\n[2]") == "file:2: it is not valid JSON");
  CHECK(complaint("\"\xC3\x28\"") == "file:1: it is not valid JSON");
  CHECK(complaint("") == "file:1: it is not valid JSON");
}

TEST_CASE("a list of very many objects is read whole, a byte-order mark passed over") {
  std::string text = "\xEF\xBB\xBF[{}";
  for (int i = 1; i < 300000; ++i) text += ",{}";
  CHECK(parse_json(text + "]", "file").size() == 300000);
}

TEST_CASE("a message repeats no more of a file than 8000 bytes") {
  const std::string key(100000, 'k');
  const std::string text = "{\"" + key + "\": 1, \"" + key + "\": 2}";
  const std::string words = complaint(text);
  CHECK(words.size() == 6 + 8000 + 4);  // "file: ", the cut message, " ..."
  CHECK(words.ends_with("kkk ..."));
}
