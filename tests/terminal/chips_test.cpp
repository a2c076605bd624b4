#include "terminal/chips.h"

#include <catch2/catch.hpp>
#include <sstream>

#include "layout/parts_catalogue.h"
#include "render/chips_json.h"

using namespace rtcmend;

namespace {

bool has(const std::string& text, std::string_view words) {
  return text.find(words) != std::string::npos;
}

bool fits_page(const std::string& text) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);)
    if (line.size() > 80) return false;
  return true;
}

}  // namespace

TEST_CASE("the family is a line for each part") {
  const std::string text = chips_text(known_parts(), Ink());
  CHECK(has(text, "  MC146818A    50 bytes  bare     outside       firmware  none       none\n"));
  CHECK(has(text, "  DS12C887A   113 bytes  potted   built in      at 32h    pin 21     none\n"));
  CHECK(fits_page(text));
}

TEST_CASE("a part tells what it is, what it replaces and what replaces it, with sources") {
  const std::string text = chip_text(need_part("DS12887A"), Ink());
  CHECK(has(text, "RAM .......... 114 bytes; 128 with clock and registers"));
  CHECK(has(text, "It can take the place of\n  DS1287A  "));
  CHECK(has(text, "Its place can be taken by\n  DS12C887A  "));
  CHECK(has(text, "21             RCLR, RAM clear"));
  CHECK(has(text, "(common practice, no"));
  CHECK(has(text, "source ....... published: DS12885\n"));
}

TEST_CASE("every part fits on 80 columns") {
  for (const Part& part : known_parts()) {
    INFO(part.name);
    CHECK(fits_page(chip_text(part, Ink())));
  }
}

TEST_CASE("where the pins are not known none are shown") {
  const std::string text = chip_text(need_part("DS12R887"), Ink());
  CHECK(has(text, "Its pins are not known here"));
  CHECK(has(text, "fed from it .. not known here: do no work on it by guess"));
}

TEST_CASE("as JSON a part has numbers and lists") {
  const Json json = chips_json({need_part("DS12887")});
  REQUIRE(json["parts"].size() == 1);
  const Json& part = json["parts"][0];
  CHECK(part["part"] == "DS12887");
  CHECK(part["ram_bytes"] == 114);
  CHECK(part["size"] == 128);
  CHECK(part["ram_clear_pin"].is_null());
  CHECK(part["keeps_century"] == false);
  CHECK(part["replaces"][0]["part"] == "DS1287");
  CHECK(part["replaced_by"][0] == "DS12887A");
}
