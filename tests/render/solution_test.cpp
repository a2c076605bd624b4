#include "render/solution.h"

#include <catch2/catch.hpp>

#include "render/trace.h"

using namespace rtcmend;

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
      image.set(static_cast<Address>(at), static_cast<std::uint8_t>(at * at * (i + 1) + 77 * i));
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
  CHECK(json["draft"]["chip"] == "chip-64");
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
