// Small sessions typed in, one question each.

#include <catch2/catch.hpp>

#include "base/error.h"
#include "discover/draft.h"
#include "layout/library.h"
#include "layout/load.h"

using namespace rtcmend;

namespace {

struct Byte {
  Address at;
  std::uint8_t value;
};

Step step(const std::string& setting, const std::string& value, const std::vector<Byte>& bytes) {
  Image image(std::vector<std::uint8_t>(Image::small_size, 0));
  for (const Byte& byte : bytes) image.set(byte.at, byte.value);
  return {setting, value, setting + "=" + value, image};
}

// Every value twice, as the protocol asks.
std::vector<Step> twice(std::vector<Step> steps) {
  const std::size_t once = steps.size();
  for (std::size_t i = 0; i < once; ++i) steps.push_back(steps[i]);
  return steps;
}

Question no_checks() {
  Question question;
  question.sums = question.balances = question.xors = question.crcs = false;
  return question;
}

Trace trace_fields(const std::vector<Step>& steps) {
  return trace(steps, no_checks(), {});
}

Draft merged(const nlohmann::ordered_json& earlier, const Draft& found) {
  const std::string text = earlier.dump();
  return merge_draft({text, "draft.json", load_layout(text, "draft.json", embedded_text)}, found);
}

std::vector<Bit> byte_bits(Address at) {
  std::vector<Bit> bits;
  for (std::uint8_t i = 8; i-- > 0;) bits.push_back({at, i});
  return bits;
}

}  // namespace

TEST_CASE("a number is told from codes by its values lying on one line") {
  const auto found = trace_fields(
      twice({step("memory", "0 KiB", {{0x17, 0x00}}), step("memory", "64 KiB", {{0x17, 0x01}}),
             step("memory", "16320 KiB", {{0x17, 0xFF}})}));
  REQUIRE(found.fields.size() == 1);
  CHECK(found.fields[0].encoding.kind == Encoding::Kind::number);
  CHECK(found.fields[0].encoding.scale == 64);
  CHECK(found.fields[0].encoding.unit == "KiB");
  CHECK(found.fields[0].encoding.bits == byte_bits(0x17));
}

TEST_CASE("a number over two bytes may stand low byte first") {
  const auto found = trace_fields(
      twice({step("memory", "0", {}), step("memory", "258", {{0x30, 0x02}, {0x31, 0x01}}),
             step("memory", "65535", {{0x30, 0xFF}, {0x31, 0xFF}})}));
  REQUIRE(found.fields.size() == 1);
  CHECK(found.fields[0].encoding.kind == Encoding::Kind::number);
  REQUIRE(found.fields[0].encoding.bits.size() == 16);
  CHECK(found.fields[0].encoding.bits.front() == Bit{0x31, 7});
  CHECK(found.fields[0].encoding.bits.back() == Bit{0x30, 0});
}

TEST_CASE("a second copy of a number is not taken for a part of it") {
  const auto found =
      trace_fields(twice({step("memory", "0", {}), step("memory", "77", {{0x17, 77}, {0x30, 77}}),
                          step("memory", "255", {{0x17, 255}, {0x30, 255}})}));
  REQUIRE(found.fields.size() == 1);
  CHECK(found.fields[0].encoding.bits == byte_bits(0x17));
  REQUIRE(found.fields[0].encoding.copies.size() == 1);
  CHECK(found.fields[0].encoding.copies[0] == byte_bits(0x30));
}

TEST_CASE("decimal digits are told from a binary number") {
  const auto found = trace_fields(
      twice({step("century", "19", {{0x32, 0x19}}), step("century", "20", {{0x32, 0x20}}),
             step("century", "46", {{0x32, 0x46}})}));
  REQUIRE(found.fields.size() == 1);
  CHECK(found.fields[0].encoding.kind == Encoding::Kind::bcd);
}

TEST_CASE("one bit for off and on is a flag, and upside down it is a choice") {
  const auto found = trace_fields(
      twice({step("cache", "off", {{0x20, 0x00}}), step("cache", "on", {{0x20, 0x08}}),
             step("shadow", "on", {{0x21, 0x00}}), step("shadow", "off", {{0x21, 0x02}})}));
  REQUIRE(found.fields.size() == 2);
  CHECK(found.fields[0].encoding.kind == Encoding::Kind::flag);
  CHECK(found.fields[0].encoding.bits == std::vector<Bit>{{0x20, 3}});
  CHECK(found.fields[1].encoding.kind == Encoding::Kind::choice);
}

TEST_CASE("a setting in two bytes is one field") {
  const auto found = trace_fields(
      twice({step("display", "colour", {}), step("display", "mono", {{0x20, 0x80}, {0x2A, 0x01}}),
             step("display", "none", {{0x2A, 0x01}})}));
  REQUIRE(found.fields.size() == 1);
  CHECK(found.fields[0].encoding.bits == std::vector<Bit>{{0x20, 7}, {0x2A, 0}});
  CHECK(found.fields[0].values[1].raw == 3);
  CHECK(found.fields[0].values[2].raw == 1);
}

TEST_CASE("a setting that moves another along does not own its bits") {
  const auto found = trace_fields(
      twice({step("display", "colour", {}), step("display", "none", {{0x20, 0x01}, {0x21, 0x10}}),
             step("cursor", "line", {}), step("cursor", "block", {{0x21, 0x10}})}));
  REQUIRE(found.fields.size() == 2);
  CHECK(found.fields[0].encoding.bits == std::vector<Bit>{{0x20, 0}});
  CHECK(found.fields[0].drags == std::vector<std::string>{"cursor"});
  CHECK(found.fields[1].encoding.bits == std::vector<Bit>{{0x21, 4}});
  CHECK(found.fields[1].dragged_by == std::vector<std::string>{"display"});
}

TEST_CASE("a bit that follows from two settings belongs to neither") {
  const auto found = trace_fields(twice(
      {step("floppy_a", "none", {}), step("floppy_a", "1.44M", {{0x20, 0x40}, {0x24, 0x01}}),
       step("floppy_b", "none", {}), step("floppy_b", "1.2M", {{0x20, 0x02}, {0x24, 0x01}})}));
  REQUIRE(found.fields.size() == 3);
  CHECK(found.fields[2].is_shared());
  CHECK(found.fields[2].settings == std::vector<std::string>{"floppy_a", "floppy_b"});
  CHECK(found.fields[2].encoding.bits == std::vector<Bit>{{0x24, 0}});
}

TEST_CASE("a byte that changes with nothing changed is no field") {
  auto steps =
      twice({step("cache", "off", {{0x2F, 1}}), step("cache", "on", {{0x20, 8}, {0x2F, 2}})});
  steps.push_back(step("", "", {{0x2F, 7}}));
  steps.push_back(step("", "", {{0x2F, 9}}));
  const auto found = trace_fields(steps);
  REQUIRE(found.fields.size() == 1);
  CHECK(found.restless == Addresses{0x2F});
}

TEST_CASE("a dump with the wrong label is named and left out, and not averaged") {
  auto steps = twice({step("speed", "slow", {{0x20, 1}}), step("speed", "middle", {{0x20, 2}}),
                      step("speed", "fast", {{0x20, 4}})});
  steps[5].image.set(0x20, 2);  // the second "fast" shows what "middle" shows
  const auto found = trace_fields(steps);
  REQUIRE(found.mistakes.size() == 1);
  CHECK(found.mistakes[0].step == 5);
  CHECK(found.mistakes[0].text.find("shows what speed=middle (speed=middle) shows") !=
        std::string::npos);
  REQUIRE(found.fields.size() == 1);
  CHECK(found.fields[0].values.size() == 3);
}

TEST_CASE("two dumps of one label that nothing tells apart are a contradiction") {
  auto steps = twice({step("speed", "slow", {{0x20, 1}}), step("speed", "middle", {{0x20, 2}}),
                      step("speed", "fast", {{0x20, 4}})});
  steps[5].image.set(0x20, 8);
  const auto found = trace_fields(steps);
  CHECK(found.mistakes.empty());
  REQUIRE(found.contradictions.size() == 1);
  CHECK(found.contradictions[0].value == "fast");
  CHECK(found.contradictions[0].bytes == Addresses{0x20});
  REQUIRE(found.fields.size() == 1);
  CHECK(found.fields[0].values.size() == 2);
}

TEST_CASE("a setting that no bit follows is named") {
  const auto found = trace_fields(twice({step("cache", "off", {}), step("cache", "on", {{0x20, 8}}),
                                         step("bell", "off", {}), step("bell", "on", {})}));
  CHECK(found.silent == std::vector<std::string>{"bell"});
}

TEST_CASE("a session in which nothing was changed is refused") {
  CHECK_THROWS_AS(trace_fields({step("", "", {}), step("", "", {})}), Error);
  CHECK_THROWS_AS(trace_fields({step("cache", "on", {}), step("cache", "on", {})}), Error);
}

TEST_CASE("merging keeps what the draft has and adds what is new") {
  const auto first = draft_layout(
      trace_fields(twice({step("floppy", "none", {}), step("floppy", "1.44M", {{0x20, 0x40}}),
                          step("floppy", "1.2M", {{0x20, 0x20}})})));
  const auto second = draft_layout(
      trace_fields(twice({step("floppy", "none", {}), step("floppy", "720K", {{0x20, 0x60}}),
                          step("cache", "off", {}), step("cache", "on", {{0x21, 8}})})));
  const Draft both = merged(first.layout, second);
  const auto& fields = both.layout["fields"];
  REQUIRE(fields.size() == 2);
  CHECK(fields[0]["choice"]["3"] == "720K");
  CHECK(fields[0]["choice"]["1"] == "1.2M");
  CHECK(fields[1]["id"] == "cache");
  CHECK(both.notes.empty());
}

TEST_CASE("merging leaves out a field that would claim bits of another") {
  const auto first = draft_layout(
      trace_fields(twice({step("cache", "off", {}), step("cache", "on", {{0x21, 8}})})));
  const auto second = draft_layout(
      trace_fields(twice({step("shadow", "off", {}), step("shadow", "on", {{0x21, 8}})})));
  const Draft both = merged(first.layout, second);
  CHECK(both.layout["fields"].size() == 1);
  CHECK(both.notes.size() == 1);
}

TEST_CASE("merging leaves the bits of an included part alone") {
  nlohmann::ordered_json earlier = {
      {"layout", "mine"}, {"title", "AT class and more"}, {"of", "at"}};
  const auto found = draft_layout(
      trace_fields(twice({step("floppy", "none", {}), step("floppy", "1.44M", {{0x10, 0x40}}),
                          step("cache", "off", {}), step("cache", "on", {{0x3A, 8}})})));
  const Draft both = merged(earlier, found);
  REQUIRE(both.layout["fields"].size() == 1);
  CHECK(both.layout["fields"][0]["id"] == "cache");
  CHECK(both.notes == std::vector<std::string>{"floppy wants bits that the draft gives to "
                                               "something else, and was left out."});
}

TEST_CASE("ids are made from free words") {
  CHECK(id_from("Floppy B") == "floppy_b");
  CHECK(id_from("  1st disk / type ") == "setting_1st_disk_type");
  CHECK(id_from("???") == "setting");
}

TEST_CASE("a session with no steps, or with dumps of two sizes, is refused") {
  CHECK_THROWS_AS(trace_fields({}), Error);
  auto steps = twice({step("cache", "off", {}), step("cache", "on", {{0x20, 8}})});
  steps.back().image = Image(std::vector<std::uint8_t>(Image::large_size, 0));
  CHECK_THROWS_AS(trace_fields(steps), Error);
}

TEST_CASE("a layout's check is taken when it holds in every dump, and named when it does not") {
  Check check;
  check.id = "xor_check";
  check.rule = XorRule{};
  check.over = {{{0x20, 0x2D}, {}}};
  check.stored_at = 0x2E;
  const auto steps = twice(
      {step("cache", "off", {{0x20, 1}, {0x2E, 1}}), step("cache", "on", {{0x20, 9}, {0x2E, 9}})});
  const Trace known = trace(steps, no_checks(), {check});
  REQUIRE(known.checks.size() == 1);
  CHECK(known.checks[0].check == check);
  REQUIRE(known.fields.size() == 1);
  CHECK(known.fields[0].encoding.bits == std::vector<Bit>{{0x20, 3}});

  auto unsealed = steps;
  for (Step& one : unsealed) one.image.set(0x2E, 0x77);
  const Trace broken = trace(unsealed, no_checks(), {check});
  CHECK(broken.checks.empty());
  CHECK(std::ranges::count(broken.notes,
                           "The layout's check xor_check does not hold in every dump.") == 1);
}
