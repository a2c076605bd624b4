#include "terminal/diagnosis.h"

#include <catch2/catch.hpp>
#include <string>

#include "render/diagnosis_json.h"

using namespace rtcmend;

namespace {

const PostCode& low_cell() {
  static const PostCode code{
      "161", "The cell is low.", true, "", "", {}, "Change the cell.", 1, "", {}, "RBIL61"};
  return code;
}

const PostCode& keyboard() {
  static const PostCode code{
      "301", "A key is stuck.", false, "the keyboard", "", {}, "Free the key.", 2, "",
      {},    "from memory"};
  return code;
}

std::vector<Suspect> so_many_suspects(int count) {
  std::vector<Suspect> all;
  for (int i = 0; i < count; ++i)
    all.push_back({"bit-12-" + std::to_string(i),
                   "Bit flipped.",
                   {{0x12, 0xF0, 0xF8}},
                   {"sum"},
                   i == 0 ? 0.62 : 0.004});
  return all;
}

}  // namespace

TEST_CASE("suspects come with their odds and how to accept the first, the least likely unlisted") {
  CHECK(suspects_text({}, "dump.bin", Ink()).empty());
  const std::string text = suspects_text(so_many_suspects(10), "dump.bin", Ink());
  CHECK(
      text.starts_with("Suspects: small repairs that would explain it\n"
                       "  62 %     bit-12-0\n"
                       "           Bit flipped.\n"
                       "  <1 %     bit-12-1\n"));
  CHECK(text.find("bit-12-8") == std::string::npos);
  CHECK(text.find("  and 2 less likely ones; --json lists them all\n") != std::string::npos);
  CHECK(text.find(" none of these\n") != std::string::npos);
  CHECK(text.ends_with("  Accept   rtcmend amend dump.bin --accept bit-12-0 -o OUT\n"));
  CHECK(suspects_text(so_many_suspects(8), "dump.bin", Ink()).find("less likely") ==
        std::string::npos);
  const Json json = suspects_json(so_many_suspects(10));
  CHECK(json.size() == 10);
  CHECK(json[0]["changes"] == Json::parse(R"([{"at": 18, "from": 240, "to": 248}])"));
}

TEST_CASE("a forecast names each code with why and what to do, or says that there is none") {
  CHECK(forecast_text({}, Ink()) ==
        "Nothing in this image would raise a code at power-on.\n"
        "A drive or adapter that fails raises its own, whatever the chip says.\n");
  const Forecast codes{
      {{&low_cell(), {"cell-low", "blank"}, {"The chip says that its cell is low."}}}, {}, false};
  CHECK(forecast_text(codes, Ink()) ==
        "  161      The cell is low.\n"
        "           Because: The chip says that its cell is low.\n"
        "           Seen as: cell-low, blank\n"
        "           Do: Change the cell.\n"
        "In the order of work. A drive or adapter that fails raises its own code as well.\n");
  CHECK(forecast_json(codes)["codes"][0] ==
        Json::parse(R"({"code": "161", "means": "The cell is low.",
                        "because": ["cell-low", "blank"],
                        "why": ["The chip says that its cell is low."],
                        "do": "Change the cell."})"));
  CHECK(forecast_json({}) ==
        Json::parse(R"({"codes": [], "cannot_promise": [], "misread": false})"));
  CHECK(forecast_text({{}, {}, true}, Ink()) ==
        "The dump was misread, so nothing can be foretold from it. Read the chip again.\n");
}

TEST_CASE("a forecast says what it cannot promise, with codes and without") {
  const Forecast open{{}, {{"A code stands here that no list has.", {"field-unlisted"}}}, false};
  CHECK(forecast_text(open, Ink()) ==
        "Nothing in this image would raise a code at power-on.\n"
        "It cannot be promised:\n"
        "  A code stands here that no list has. (field-unlisted)\n"
        "A drive or adapter that fails raises its own, whatever the chip says.\n");
  CHECK(forecast_json(open)["cannot_promise"] ==
        Json::parse(R"([{"text": "A code stands here that no list has.",
                         "because": ["field-unlisted"]}])"));
}

TEST_CASE("an explained code tells its causes, what the dump shows of them, and the remedy") {
  Explanation explanation;
  explanation.codes = {
      {"161", &low_cell(), {{"The cell is flat.", {"cell-low"}}, {"The cell was taken out.", {}}}}};
  CHECK(explain_text(explanation, Ink()) ==
        "  161   The cell is low.\n"
        "        1. The cell is flat.\n"
        "           The dump shows it: cell-low.\n"
        "        2. The cell was taken out.\n"
        "        Do: Change the cell.\n"
        "        Source: RBIL61.\n");
}

TEST_CASE("a code that is not about the chip says so, one that is not known is not made up") {
  Explanation explanation;
  explanation.codes = {{"301", &keyboard(), {}},
                       {"9\x1b"
                        "9",
                        nullptr,
                        {}}};
  explanation.order = {"First 301: a stuck key stops the start."};
  CHECK(explain_text(explanation, Ink()) ==
        "  301   A key is stuck.\n"
        "        Not the clock chip: look at the keyboard.\n"
        "        Do: Free the key.\n"
        "        Source: from memory.\n"
        "  9\\x1B9\n"
        "        is not a code that this program knows. It says nothing here about the\n"
        "        clock chip: look it up in the machine's own manual.\n"
        "Order of work\n"
        "  First 301: a stuck key stops the start.\n");
}

TEST_CASE("an unknown code stands apart from what is said of it, however long it is") {
  Explanation explanation;
  explanation.codes = {{"99999", nullptr, {}}};
  CHECK(explain_text(explanation, Ink()).starts_with("  99999 is not a code"));
  explanation.codes = {{"1780-disk", nullptr, {}}};
  CHECK(explain_text(explanation, Ink()).starts_with("  1780-disk\n        is not a code"));
}

TEST_CASE("the JSON of explain has every key for a known code, and null for an unknown one") {
  Explanation explanation;
  explanation.codes = {{"301", &keyboard(), {{"A book lies on it.", {"x"}}}}, {"999", nullptr, {}}};
  const Json json = explain_json(explanation);
  CHECK(
      json["codes"][0] ==
      Json::parse(
          R"({"code": "301", "known": true, "chip": false, "look_at": "the keyboard", "means": "A key is stuck.",
                        "causes": [{"text": "A book lies on it.", "seen": ["x"]}],
                        "do": "Free the key.", "source": "from memory"})"));
  CHECK(
      json["codes"][1] ==
      Json::parse(
          R"({"code": "999", "known": false, "chip": null, "look_at": null, "means": null, "causes": [],
                        "do": null, "source": null})"));
  CHECK(json["order"] == Json::array());
}
