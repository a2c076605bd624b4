#include "terminal/retention.h"

#include <catch2/catch.hpp>
#include <string>

#include "render/retention_json.h"

using namespace rtcmend;

namespace {

Retention with(Retained what) {
  Retention retention;
  retention.what = what;
  retention.text = "What became of it.";
  retention.next = "What to measure.";
  return retention;
}

}  // namespace

TEST_CASE("every end of a test without power has its word and its colour") {
  const auto says = [](Retained what, std::string_view word, std::string_view colour) {
    CHECK(retention_json(with(what))["verdict"] == word);
    CHECK(retention_text(with(what), Ink(true))
              .find("\x1b[" + std::string(colour) + "mWhat became of it.") != std::string::npos);
  };
  says(Retained::everything, "kept", "32");
  says(Retained::nothing, "all-lost", "1;31");
  says(Retained::cleared, "ram-cleared", "1;31");
  says(Retained::a_few_bits_lost, "few-bits-lost", "1;31");
  says(Retained::much_lost, "much-lost", "1;31");
  says(Retained::clock_lost, "clock-lost", "1;31");
  says(Retained::firmware_rewrote, "firmware-rewrote", "33");
  says(Retained::changes_by_read, "unstable-reads", "1;31");
}

TEST_CASE("what the clock did has its word in JSON") {
  const auto word = [](ClockKept clock) {
    Retention retention = with(Retained::everything);
    retention.clock = clock;
    return retention_json(retention)["clock"].get<std::string>();
  };
  CHECK(word(ClockKept::kept) == "kept");
  CHECK(word(ClockKept::stood_still) == "stood-still");
  CHECK(word(ClockKept::lost) == "lost");
  CHECK(word(ClockKept::off) == "off");
  CHECK(word(ClockKept::unknown) == "unknown");
}

TEST_CASE("a low cell and a clock that stood still are told beside the verdict") {
  Retention retention = with(Retained::much_lost);
  CHECK(retention_text(retention, Ink()) ==
        "Without power\n"
        "  What became of it.\n"
        "  next    What to measure.\n");
  retention.cell_low = true;
  retention.clock_text = "The clock stood still.";
  CHECK(retention_text(retention, Ink()) ==
        "Without power\n"
        "  What became of it.\n"
        "  cell    VRT (0Dh bit 7) reads 0: the chip itself says that its cell was too\n"
        "          low or absent.\n"
        "  clock   The clock stood still.\n"
        "  next    What to measure.\n");
  CHECK(retention_json(retention)["cell_low"] == true);
  CHECK(retention_json(retention)["clock_text"] == "The clock stood still.");
}

TEST_CASE("a verdict that is about the clock does not tell it twice") {
  Retention retention = with(Retained::clock_lost);
  retention.clock_text = "The clock stood still.";
  CHECK(retention_text(retention, Ink()).find("clock ") == std::string::npos);
}

TEST_CASE("a lost bit says what it was, and a password's byte only where it is") {
  Retention retention = with(Retained::a_few_bits_lost);
  retention.bits = {{0x12, 7, true}, {0x15, 0, false}};
  retention.changed = {0x12, 0x15, 0x38};
  retention.hidden = {0x38};
  const Json json = retention_json(retention);
  CHECK(json["bits"] == Json::parse(R"([{"at": 18, "bit": 7, "wanted": 1},
                                        {"at": 21, "bit": 0, "wanted": 0}])"));
  CHECK(json["changed"] == Json({0x12, 0x15, 0x38}));
  CHECK(json["hidden"] == Json::parse("[56]"));
}
