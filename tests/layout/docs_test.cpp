#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <set>

#include "base/files.h"
#include "base/json.h"
#include "hand_images.h"
#include "layout/load.h"

using namespace rtcmend;

namespace {

const std::string& page() {
  static const std::string text = read_whole(std::string(RTCMEND_SOURCE_DIR) + "/docs/layouts.md");
  return text;
}

/// What stands between the first fence of this kind behind `after` and the next fence.
std::string fenced(const std::string& kind, const std::string& after) {
  const auto from = page().find("```" + kind + "\n", page().find(after));
  const auto begin = page().find('\n', from) + 1;
  return page().substr(begin, page().find("```", begin) - begin);
}

Layout worked_example() {
  return load_layout(fenced("json", "## From a manual page"), "docs/layouts.md", embedded_text);
}

/// Every key that the schema knows, at any depth.
void gather_keys(const nlohmann::json& schema, std::set<std::string>& keys) {
  if (!schema.is_structured()) return;
  for (const auto& [name, inner] : schema.items()) {
    if (schema.is_object() && name == "properties")
      for (const auto& [key, value] : inner.items()) keys.insert(key);
    gather_keys(inner, keys);
  }
}

}  // namespace

TEST_CASE("the worked example of docs/layouts.md is a good layout") {
  const Layout layout = worked_example();
  CHECK(layout.id == "heron-286");
  CHECK(layout.checks.size() == 2);
  CHECK(layout.field("floppy_a") != nullptr);
}

TEST_CASE("the bytes that the page works out by hand fit its layout") {
  const Layout layout = worked_example();
  const std::string bytes = fenced("", "**Prove it on one dump.**");
  const Image image = typed_in(64,
                               "00 00 "
                               "40 00 F0 00 0D 80 02 80 01 27 00 00 00 00 00 00 "
                               "00 00 00 00 00 00 00 00 00 00 00 00 00 00 02 67 "
                               "80 01 20 00 " +
                                   bytes.substr(0, bytes.find('\n')));
  CHECK(holding(layout, image) == std::vector<std::string>{"sum-10-2d", "sum-34-3b"});
  CHECK(resealed(layout, image) == image);
  CHECK(says(layout, "start_sound", image) == "short");
  CHECK(says(layout, "shared_memory_kib", image) == "128 KiB");
  CHECK(says(layout, "owner", image) == "AB");
  CHECK_FALSE(read_field(layout.need_field("copy_hour"), image).in_use);
}

TEST_CASE("the page explains every key that the schema knows") {
  std::set<std::string> keys;
  gather_keys(parse_json(embedded_text("schema/layout"), "schema/layout"), keys);
  REQUIRE(keys.size() > 50);
  for (const std::string& key : keys) {
    INFO(key);
    CHECK(page().find("`" + key + "`") != std::string::npos);
  }
}
