#include "terminal/solution.h"

#include <catch2/catch.hpp>

#include "render/flat.h"
#include "render/solution_json.h"
#include "render/trace_json.h"
#include "terminal/trace.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

// Four images that differ in many bytes, with a 16-bit sum over 10-2D, high byte first at 2E.
std::vector<Image> images_with_a_sum() {
  std::vector<Image> images;
  Check check;
  check.over = {{{0x10, 0x2D}, std::nullopt}};
  check.stored_at = 0x2E;
  for (unsigned i = 0; i < 4; ++i) {
    Image image(std::vector<std::uint8_t>(Image::small_size, 0));
    for (unsigned at = 0x10; at < 0x2E; ++at)
      image.set(static_cast<Address>(at),
                static_cast<std::uint8_t>(at * at * (i * i + 1) + 77 * i));
    seal_one(check, image);
    images.push_back(image);
  }
  return images;
}

Step step(const std::string& value, std::uint8_t byte) {
  Image image(std::vector<std::uint8_t>(Image::small_size, 0));
  image.set(0x20, byte);
  return {"floppy_b", value, value + ".bin", image};
}

}  // namespace

TEST_CASE("the JSON of solve names every parameter of a model, null where it has none") {
  Question question;
  question.crcs = false;
  const Json json = solution_json(solve(images_with_a_sum(), question));
  REQUIRE(json["models"].size() >= 1);
  const Json& model = json["models"][0];
  CHECK(model["kind"] == "sum");
  CHECK(model["width"] == 16);
  CHECK(model["poly"].is_null());
  CHECK(model["init"] == 0);
  CHECK(model["refin"].is_null());
  CHECK(model["refout"].is_null());
  CHECK(model["xorout"].is_null());
  CHECK(model["over"] == Json({0x10, 0x2D}));
  CHECK(model["at"] == 0x2E);
  CHECK(model["order"] == "high-first");
  CHECK(model["chance"].get<double>() < 0.01);
  CHECK(json["decided"] == true);
  CHECK(json["complete"] == true);
}

TEST_CASE("the text of solve says what is possible before it says what was found") {
  Question question;
  question.crcs = false;
  const std::string text = solution_text(solve(images_with_a_sum(), question), Ink(false));
  const auto possible = text.find("dumps decide"), found = text.find("16-bit sum over 10h-2Dh");
  REQUIRE(possible != std::string::npos);
  REQUIRE(found != std::string::npos);
  CHECK(possible < found);
  CHECK(text.find("stored at 2Eh-2Fh, high byte first") != std::string::npos);
}

TEST_CASE("the JSON of trace gives bits highest first and the stored number of each value") {
  Question question;
  question.sums = question.balances = question.xors = question.crcs = false;
  const std::vector<Step> steps = {step("none", 0x00), step("1.44M", 0x60), step("none", 0x00),
                                   step("1.44M", 0x60)};
  const Trace found = trace(steps, question, {});
  const Json json = trace_json(found, draft_layout(found));
  REQUIRE(json["fields"].size() == 1);
  const Json& field = json["fields"][0];
  CHECK(field["bits"] == Json::parse(R"([{"at": 32, "bit": 6}, {"at": 32, "bit": 5}])"));
  CHECK(field["values"]["none"] == 0);
  CHECK(field["values"]["1.44M"] == 3);
  CHECK(json["volatile"].empty());
  CHECK(json["checks"].empty());
  CHECK(json["draft"]["size"] == 64);
}

TEST_CASE("a search that was stopped says that it is not complete, with or without models") {
  Solution solution;
  solution.dumps = 3;
  solution.complete = false;
  const std::string text = solution_text(solution, Ink());
  CHECK(text.find("Stopped early: this is what was found so far, not everything.\n"
                  "Nothing was found so far.\n") != std::string::npos);
  CHECK(solution_json(solution)["complete"] == false);
}

namespace {

/// Three dumps that leave one CRC, found with all that can be said of it.
Solution one_crc() {
  Model model;
  model.check.rule = CrcRule{{16, 0x1021, 0xFFFF, true, false, 0x0001}};
  model.check.over = {{{0x10, 0x1F}, std::nullopt}, {{0x22, 0x2D}, std::nullopt}};
  model.check.stored_at = 0x2E;
  model.check.order = Order::low_first;
  model.chance = 1e-6;
  Solution solution;
  solution.dumps = 3;
  solution.models = {model};
  solution.next.why = "anything";
  return solution;
}

Check plain_sum(Address at) {
  Check check;
  check.over = {{{0x10, 0x2D}, std::nullopt}};
  check.stored_at = at;
  return check;
}

std::string told(const Solution& solution) {
  return solution_text(solution, Ink());
}

/// However it is folded.
bool says(const Solution& solution, const std::string& words) {
  return flat(told(solution)).find(words) != std::string::npos;
}

Space space(unsigned width, double models, double by_luck, std::size_t more_dumps) {
  Space space;
  space.width = width;
  space.models = models;
  space.by_luck = by_luck;
  space.decide = 4;
  space.more_dumps = more_dumps;
  space.listed = true;
  return space;
}

}  // namespace

TEST_CASE(
    "dumps that equal another are counted apart, and kinds that were not asked have no line") {
  Solution solution;
  solution.dumps = 3;
  solution.repeats = 2;
  solution.spaces = {space(8, 1400, 0.0021, 0), space(16, 0, 0, 0), space(16, 250000, 0, 2)};
  CHECK(told(solution).starts_with(
      "3 different dumps (2 left out: equal to another).\n"
      "\n"
      "  check       possible      by luck   dumps decide   these dumps\n"
      "   8 bits      1.4e+03      2.1e-03              4   enough, for what changed\n"
      "  16 bits      2.5e+05            0              4   2 more needed\n"
      "\n"));
}

TEST_CASE("a model says the parameters of its CRC and where its bytes stand") {
  Solution solution = one_crc();
  CHECK(says(solution, "over 10h-1Fh, 22h-2Dh, stored at 2Eh-2Fh, low byte first"));
  CHECK(says(
      solution,
      "CRC ............. start FFFFh, bits in mirrored, bits out as they are, final xor 0001h"));
  const Json json = solution_json(solution)["models"][0];
  CHECK(json["poly"] == 0x1021);
  CHECK(json["init"] == 0xFFFF);
  CHECK(json["refin"] == true);
  CHECK(json["refout"] == false);
  CHECK(json["xorout"] == 1);
  CHECK(json["over"] == Json({0x10, 0x2D}));
  CHECK(json["order"] == "low-first");
  solution.models[0].check.rule = CrcRule{{8, 0x07, 0x00, false, true, 0x55}};
  CHECK(says(solution, "start 00h, bits in as they are, bits out mirrored, final xor 55h"));
}

TEST_CASE("a model says what else fits the same bytes, and what speaks for and against it") {
  Solution solution = one_crc();
  Model& model = solution.models[0];
  model.check = plain_sum(0x2E);
  CHECK_FALSE(says(solution, "the same as"));
  model.wordings = {model.check.rule, SumRule{16, 0, Sign::negated, std::nullopt}, XorRule{}};
  model.twins = {plain_sum(0x30)};
  model.siblings = {plain_sum(0x32), plain_sum(0x34)};
  model.family = {{}, {}};
  model.firsts = {0x10, 0x11};
  model.lasts = {0x2D, 0x2D};
  model.habits = {{3, "stored right behind the range"}, {-2, "an odd constant"}};
  CHECK(says(solution,
             "family .......... 2 models, over ranges that begin at 10h-11h and end at 2Dh: the "
             "dumps cannot tell them apart"));
  CHECK(says(solution, "the same as ..... 16-bit sum, negated; all bytes xored or, the same ...."));
  CHECK(says(solution, "or, the same .... 16-bit sum over 10h-2Dh, stored at 30h-31h,"));
  CHECK(says(solution, "or as likely .... 16-bit sum over 10h-2Dh, stored at 32h-33h,"));
  CHECK(says(solution, "; 16-bit sum over 10h-2Dh, stored at 34h-35h,"));
  CHECK(says(solution, "for it .......... stored right behind the range against it ....."));
  CHECK(says(solution, "against it ...... an odd constant"));
  const Json json = solution_json(solution)["models"][0];
  CHECK(json["twins"].size() == 1);
  CHECK(json["twins"][0]["at"] == 0x30);
  CHECK(json["siblings"][1]["at"] == 0x34);
  CHECK(json["family"]["models"] == 2);
  CHECK(json["family"]["wordings"][1]["sign"] == "negated");
  CHECK(json["habits"][1] == Json::parse(R"({"bits": -2.0, "text": "an odd constant"})"));
}

TEST_CASE("a model that fits by luck, repeats a setting, or is half proven is not called found") {
  Solution solution = one_crc();
  CHECK(says(solution, "models would fit by luck: this is no luck"));
  solution.models[0].half_proven = true;
  CHECK(says(solution, ": yet one of its two bytes never changed, and nothing proves 16 bits"));
  solution.models[0].copy = true;
  CHECK(says(solution,
             ": yet all of it moves in step, as counters and copies do, so it proves nothing"));
  solution.models[0].copy = solution.models[0].half_proven = false;
  solution.models[0].chance = 0.5;
  CHECK(says(solution, "0.5 models would fit by luck: it may be luck"));
}

TEST_CASE("the outcome tells a decided search from one that is open, by luck, or too thin") {
  Solution solution = one_crc();
  solution.models[0].firsts = {0x10, 0x10};
  solution.models[0].lasts = {0x2D, 0x2D};
  CHECK(says(solution, "Decided: rule, place and range. The first model below is the check."));
  solution.models[0].lasts = {0x2D, 0x2E};
  CHECK(says(solution,
             "Decided: the rule and the place. Open is the range: it may end anywhere in "
             "2Dh-2Eh."));
  solution.models[0].lasts = {0x2D, 0x2D};
  solution.models[0].still = {0x11};
  CHECK(says(solution, "Open is the range: 1 byte in it never changed and may not count."));
  solution.models[0].still.clear();
  solution.models[0].twins = {plain_sum(0x30)};
  CHECK(says(solution,
             "Decided: the rule and the range. Open is the place: the same holds seen "
             "from 30h-31h."));
  solution.models[0].siblings = {plain_sum(0x32)};
  CHECK(says(solution,
             "Found, but not down to one rule: 2Eh-2Fh has polynomials that are as "
             "likely."));
  solution.models[0].chance = 2;
  CHECK(says(solution,
             "Not decided: each of these may fit by luck, or rests on what proves "
             "nothing."));
  solution.models.clear();
  solution.spaces = {space(8, 1400, 900, 1)};
  CHECK(says(solution, "No check of the kinds that were searched agrees with all dumps."));
  solution.spaces[0].listed = false;
  CHECK(says(solution,
             "Too few dumps to look: luck alone would name more models than anyone can read."));
}

TEST_CASE("a dump that was left out is named, and why") {
  Solution solution = one_crc();
  solution.odd = OddDump{1, {}};
  CHECK(says(solution, "Mistake: dump 2 does not fit: the check below holds in all other dumps."));
  CHECK(solution.decided());
  CHECK(flat(solution_text(solution, Ink(), {"one.bin", "two.bin"})).find("two.bin does not fit") !=
        std::string::npos);
  CHECK(solution_json(solution)["odd"] == Json::parse(R"({"dump": 1, "alone": []})"));
  solution.odd->alone = {0x2C};
  CHECK(says(solution,
             "It alone shows another 2Ch; either it is damaged, or that is not under the "
             "check as it is told here."));
  CHECK(says(solution, "Found, but not decided: take the dump that was left out once more."));
  CHECK_FALSE(solution.decided());
  CHECK(solution_json(one_crc())["odd"].is_null());
}

TEST_CASE("the next step counts the fewest dumps that are missing, and what to change") {
  Solution solution;
  solution.next.why = "change any setting";
  solution.spaces = {space(8, 1400, 900, 3), space(16, 1400, 900, 2)};
  CHECK(told(solution).ends_with("Dump 2 times more. Next change: change any setting.\n"));
  solution.spaces = {space(8, 1400, 900, 1), space(16, 1400, 900, 2)};
  CHECK(told(solution).ends_with("Dump once more. Next change: change any setting.\n"));
  solution.next.bytes = {0x12};
  solution.next.why = "it splits them";
  CHECK(told(solution).ends_with(
      "Dump once more. Best next change: a setting stored in 12h; it splits them.\n"));
}

TEST_CASE("no more than eight models are told, the others are in JSON") {
  Solution solution;
  solution.models.assign(10, one_crc().models[0]);
  CHECK(says(solution, "8."));
  CHECK_FALSE(says(solution, "9."));
  CHECK(says(solution, "... and 2 more, all in --json."));
  CHECK(solution_json(solution)["models"].size() == 10);
}

TEST_CASE("the JSON of a model has the keys of its own kind") {
  Solution solution = one_crc();
  const auto json_of = [&](const Rule& rule) {
    solution.models[0].check.rule = rule;
    return solution_json(solution)["models"][0];
  };
  const Json sum = json_of(SumRule{16, 0x00FF, Sign::complemented, Order::high_first});
  CHECK(sum["init"] == 0xFF);
  CHECK(sum["sign"] == "complemented");
  CHECK(sum["pairs"] == "high-first");
  const Json all = json_of(XorRule{0x55});
  CHECK(all["kind"] == "xor");
  CHECK(all["init"] == 0x55);
  CHECK(all["order"].is_null());
  const Json balance = json_of(BalanceRule{0xAA});
  CHECK(balance["target"] == 0xAA);
  CHECK(balance["init"].is_null());
  CHECK_FALSE(balance.contains("sign"));
}
