// Small invented machines on which a search could say more than the dumps do.

#include <algorithm>
#include <catch2/catch.hpp>

#include "discover/draft.h"
#include "discover/small_machine.h"
#include "layout/codec.h"
#include "layout/library.h"
#include "layout/load.h"

using namespace rtcmend;
using namespace rtcmend::test;
using Bytes = SmallMachine::Bytes;
using Settings = SmallMachine::Settings;

namespace {

Layout loaded(const Draft& draft) {
  return load_layout(draft.layout.dump(), "draft.json", embedded_text);
}

Trace traced(const std::vector<Step>& steps) {
  return trace(steps, {}, {});
}

std::vector<Image> images_of(const std::vector<Step>& steps) {
  std::vector<Image> images;
  for (const Step& step : steps) images.push_back(step.image);
  return images;
}

const TracedField* field_of(const Trace& trace, const std::string& setting) {
  for (const TracedField& field : trace.fields)
    if (!field.is_shared() && field.settings[0] == setting) return &field;
  return nullptr;
}

bool has_settled_check(const Trace& trace) {
  return std::ranges::any_of(trace.checks, [](const Model& m) { return m.is_settled(); });
}

}  // namespace

TEST_CASE("two counters that go up together are no check") {
  std::vector<Image> images;
  const int unsteady[] = {0, 1, 2, 0, 1, 3, 2};
  for (int i = 0; i < 7; ++i) {
    Bytes bytes(64, 0);
    bytes[0x18] = byte(unsteady[i]);
    bytes[0x20] = byte(10 + 3 * i);
    bytes[0x30] = byte(77 + 3 * i);
    images.emplace_back(bytes);
  }
  const Solution solution = solve(images, {});
  CHECK_FALSE(solution.decided());
  CHECK(std::ranges::none_of(solution.models, &Model::found));
  CHECK(solution.restless == Addresses{0x20, 0x30});
}

TEST_CASE("two bytes in step prove nothing, though they do not go up evenly") {
  std::vector<Image> images;
  const int starts[] = {0, 1, 3, 4, 9, 11, 200, 14};
  for (const int start : starts) {
    Bytes bytes(64, 0);
    bytes[0x20] = byte(10 + start);
    bytes[0x30] = byte(77 + start);
    images.emplace_back(bytes);
  }
  const Solution solution = solve(images, {});
  CHECK(std::ranges::none_of(solution.models, &Model::found));
}

TEST_CASE("three equal counters are no checks, and the draft loads") {
  const SmallMachine machine{64, [](Bytes& d, const Settings& s, int n) {
                               d[0x30] = d[0x34] = d[0x38] = byte(n);
                               d[0x12] = byte(s.at("a"));
                               d[0x15] = byte(s.at("b"));
                             }};
  const Trace found = traced(session_of(machine, {{"a", {0, 255, 91}}, {"b", {0, 99, 52}}}));
  CHECK(found.checks.empty());
  CHECK(found.restless == Addresses{0x30, 0x34, 0x38});
  CHECK(loaded(draft_layout(found)).checks.empty());
}

TEST_CASE("a random byte under a sum is not the stored byte of another", "[long]") {
  const int random[] = {0x3A, 0x91, 0x07, 0xE4, 0x5C, 0x2B, 0xC8, 0x70, 0x19, 0xFD, 0x86,
                        0x4E, 0xA3, 0x62, 0x0D, 0xB7, 0x38, 0xDA, 0x55, 0x93, 0x21, 0x6F};
  const SmallMachine machine{64, [&](Bytes& d, const Settings& s, int n) {
                               d[0x20] = byte(random[n % 22]);
                               d[0x21] = byte(s.at("a"));
                               d[0x24] = byte(s.at("b"));
                               const int total = -sum(d, 0x20, 0x2E);
                               d[0x2E] = byte(total >> 8);
                               d[0x2F] = byte(total);
                             }};
  const Trace found =
      traced(session_of(machine, {{"a", {0, 255, 91, 166}}, {"b", {0, 99, 52, 201}}}));
  for (const Model& model : found.checks) CHECK(model.check.stored_at != 0x20);
  const Layout layout = loaded(draft_layout(found));
  for (const Check& check : layout.checks) CHECK(check.stored_at != 0x20);
}

TEST_CASE("a half that never changed proves no 16 bits, and the sum of 8 bits stays", "[long]") {
  const SmallMachine machine{128, [](Bytes& d, const Settings& s, int) {
                               d[0x44] = byte(s.at("a"));
                               d[0x4A] = byte(s.at("b"));
                               d[0x48] = 0x11;
                               d[0x50] = byte(sum(d, 0x40, 0x50));
                             }};
  const auto steps = session_of(machine, {{"a", {0, 255, 91, 166}}, {"b", {0, 99, 52, 201}}});
  const Solution solution = solve(images_of(steps), {});
  REQUIRE_FALSE(solution.models.empty());
  for (const Model& model : solution.models)
    if (width(model.check) == 16) CHECK_FALSE(model.found());
  CHECK(std::ranges::any_of(solution.models, [](const Model& model) {
    const auto* sum = std::get_if<SumRule>(&model.check.rule);
    return sum != nullptr && sum->width == 8 && sum->start == 0 && model.check.stored_at == 0x50;
  }));
  CHECK_FALSE(solution.range_decided());
}

TEST_CASE("counters that cancel out leave a rule open, and the draft does not prove by it",
          "[long]") {
  const SmallMachine machine{64, [](Bytes& d, const Settings& s, int n) {
                               d[0x11] = byte(s.at("a"));
                               d[0x14] = byte(s.at("b"));
                               d[0x30] = d[0x34] = byte(n);
                               d[0x3E] = byte(sum(d, 0x10, 0x2E));
                             }};
  const auto steps = session_of(machine, {{"a", {0, 255, 91, 166}}, {"b", {0, 99, 52, 201}}});
  const Trace found = traced(steps);
  // One at a time from 0, a sum and an xor are the same.
  CHECK_FALSE(has_settled_check(found));
  const Layout layout = loaded(draft_layout(found));
  CHECK(layout.checks.empty());
  CHECK(layout.when_writing.size() == 2);
  CHECK_FALSE(solve(images_of(steps), {}).decided());
}

TEST_CASE("a check that one setting moves is not a part of the setting", "[long][count]") {
  const SmallMachine machine{128, [](Bytes& d, const Settings& s, int) {
                               d[0x44] = byte(s.at("memory"));
                               d[0x48] = 0x11;
                               d[0x50] = byte(sum(d, 0x40, 0x50));
                             }};
  const Trace found = traced(session_of(machine, {{"memory", {0, 255, 91, 166}}}));
  REQUIRE(field_of(found, "memory") != nullptr);
  CHECK(field_of(found, "memory")->open.find("a check or a worked-out value may be at") == 0);
  CHECK(loaded(draft_layout(found)).need_field("memory").read_only);
}

TEST_CASE("a copy that no settled check covers may be a check of its own setting", "[long]") {
  const SmallMachine machine{128, [](Bytes& d, const Settings& s, int) {
                               d[0x18] = byte(s.at("a"));
                               d[0x2C] = byte(sum(d, 0x10, 0x2C));
                               d[0x44] = byte(s.at("b"));
                               d[0x46] = 0x77;
                               d[0x48] = byte(s.at("c"));
                               d[0x50] = byte(sum(d, 0x40, 0x50));
                             }};
  const Trace found = traced(session_of(
      machine, {{"a", {0, 1, 5, 4}}, {"b", {0, 255, 91, 166}}, {"c", {0, 99, 52, 201}}}));
  REQUIRE(has_settled_check(found));
  REQUIRE(field_of(found, "a") != nullptr);
  CHECK(field_of(found, "a")->open ==
        "a check or a worked-out value may be at 18h, 2Ch: the other bytes of the setting tell as "
        "much without it");
  CHECK(field_of(found, "b")->open.empty());
}

TEST_CASE("a count of drives beside their types is recognised, and an amended drive moves it") {
  const SmallMachine machine{64, [](Bytes& d, const Settings& s, int) {
                               const int a = s.at("floppy_a"), b = s.at("floppy_b");
                               d[0x10] = byte(a << 4 | b);
                               d[0x14] = byte((a > 0) + (b > 0));
                               d[0x20] = 0x55;
                               d[0x2E] = byte(sum(d, 0x10, 0x2E));
                             }};
  const auto steps = session_of(machine, {{"floppy_a", {0, 1, 2, 4}}, {"floppy_b", {0, 1, 2, 3}}},
                                {{"floppy_a", 1}});
  const Trace found = traced(steps);
  REQUIRE(field_of(found, "floppy_b") != nullptr);
  CHECK(field_of(found, "floppy_b")->encoding.bits == std::vector<Bit>{{0x10, 1}, {0x10, 0}});
  const auto shared = std::ranges::find_if(found.fields, [](const TracedField& field) {
    return field.is_shared() && field.encoding.bits.front().at == 0x14;
  });
  REQUIRE(shared != found.fields.end());
  CHECK(shared->is_count);
  const Layout layout = loaded(draft_layout(found));
  for (const Step& step : steps)
    for (const Field& field : layout.fields) CHECK(read_field(field, step.image).legal);
}

TEST_CASE("a count that was never seen above one is left open, and its drives with it") {
  const SmallMachine machine{64, [](Bytes& d, const Settings& s, int) {
                               const int a = s.at("floppy_a"), b = s.at("floppy_b");
                               d[0x10] = byte(a << 4 | b);
                               d[0x14] = byte((a > 0) + (b > 0));
                             }};
  const Trace found =
      traced(session_of(machine, {{"floppy_a", {0, 1, 2, 4}}, {"floppy_b", {0, 1, 2, 3}}}));
  CHECK_FALSE(field_of(found, "floppy_a")->open.empty());
  CHECK_FALSE(field_of(found, "floppy_b")->open.empty());
  CHECK(loaded(draft_layout(found)).need_field("floppy_a").read_only);
}

TEST_CASE("up to 9, a number and decimal digits are not told apart") {
  const SmallMachine machine{
      64, [](Bytes& d, const Settings& s, int) { d[0x23] = byte(s.at("delay")); }};
  const Trace found = traced(session_of(machine, {{"delay", {0, 7, 2, 6}}}));
  REQUIRE(field_of(found, "delay") != nullptr);
  CHECK(field_of(found, "delay")->encoding.kind == Encoding::Kind::choice);
  CHECK(field_of(found, "delay")->encoding.digits_open);
  CHECK(loaded(draft_layout(found)).need_field("delay").choices.size() == 4);
}

TEST_CASE("a bit that one setting forces and another stores belongs to neither in silence") {
  const SmallMachine machine{64, [](Bytes& d, const Settings& s, int) {
                               d[0x20] = s.at("display") == 2 ? 1 : byte(s.at("cursor"));
                             }};
  const Trace found = traced(session_of(machine, {{"display", {0, 1, 2}}, {"cursor", {0, 1}}}));
  CHECK(field_of(found, "display") == nullptr);
  REQUIRE(found.fields.size() == 1);
  CHECK(found.fields[0].is_shared());
  CHECK_FALSE(found.fields[0].open.empty());
}

TEST_CASE("a value that forces another setting is told whenever an image is written") {
  const SmallMachine machine{64, [](Bytes& d, const Settings& s, int) {
                               d[0x20] = s.at("display") == 2 ? 1 : byte(s.at("cursor"));
                               d[0x24] = byte(s.at("display"));
                             }};
  const Layout layout = loaded(
      draft_layout(traced(session_of(machine, {{"display", {0, 1, 2}}, {"cursor", {0, 1}}}))));
  CHECK(std::ranges::count_if(layout.when_writing, [](const std::string& warning) {
          return warning.find("some value of display changes cursor as well") != std::string::npos;
        }) == 1);
}

TEST_CASE("a value that was never tried is a doubt, and composing starts from what never changed") {
  const SmallMachine machine{64, [](Bytes& d, const Settings& s, int) {
                               d[0x14] = byte(s.at("disk") * 3);
                               d[0x20] = 0x5A;
                             }};
  const Layout layout = loaded(draft_layout(traced(session_of(machine, {{"disk", {1, 5, 30}}}))));
  CHECK(layout.need_field("still_20").preset == Value{std::string("5A")});
  CHECK(layout.need_field("still_20").read_only);
}

TEST_CASE("a check that later dumps break is narrowed to what holds, and that is said", "[long]") {
  const SmallMachine machine{64, [](Bytes& d, const Settings& s, int) {
                               d[0x12] = byte(s.count("c") != 0 ? s.at("c") : 0);
                               d[0x19] = byte(s.count("a") != 0 ? s.at("a") : 0);
                               d[0x22] = byte(s.count("b") != 0 ? s.at("b") : 0);
                               d[0x2A] = 0x5A;
                               d[0x31] = 0xA7;
                               d[0x30] = byte(sum(d, 0x14, 0x30));
                             }};
  const Trace one =
      traced(session_of(machine, {{"a", {0, 255, 91, 166}}, {"b", {0, 99, 52, 201}}}));
  REQUIRE(has_settled_check(one));
  const auto later = session_of(machine, {{"c", {0, 255, 77, 130}}});
  const std::string text = draft_layout(one).layout.dump();
  const Draft both =
      merge_draft({text, "draft.json", load_layout(text, "draft.json", embedded_text)},
                  draft_layout(traced(later)), images_of(later));
  const Layout layout = loaded(both);
  REQUIRE(layout.checks.size() == 1);
  CHECK(layout.checks[0].over[0].range == Range{0x13, 0x2F});
  CHECK(std::ranges::any_of(both.notes, [](const std::string& note) {
    return note.find("does not hold in the new dumps; over 13-2F it does") != std::string::npos;
  }));
  // 5Ah alone is under the sum when only c is set.
  CHECK(*evaluate(layout.checks[0], machine.dump({{"c", 77}}, 0)).computed == 0x5A);
}

TEST_CASE("a check that later dumps break in every range is dropped, and that is said") {
  const nlohmann::ordered_json earlier = {{"layout", "draft"},
                                          {"title", "Draft"},
                                          {"fields", nlohmann::ordered_json::array()},
                                          {"checks",
                                           {{{"id", "sum-10-2f"},
                                             {"sum", {{"width", 8}}},
                                             {"over", {"10-2F"}},
                                             {"stored", {{"at", "30"}}},
                                             {"source", "solved"}}}}};
  Bytes bytes(64, 0);
  bytes[0x12] = 5;
  const std::vector<Image> dumps = {Image(bytes)};
  const std::string text = earlier.dump();
  const nlohmann::ordered_json none = {{"size", 64},
                                       {"fields", nlohmann::ordered_json::array()},
                                       {"checks", nlohmann::ordered_json::array()}};
  const Draft both = merge_draft(
      {text, "draft.json", load_layout(text, "draft.json", embedded_text)}, {none, {}}, dumps);
  CHECK(both.layout["checks"].empty());
  CHECK(both.notes == std::vector<std::string>{"sum-10-2f of the draft does not hold in the new "
                                               "dumps, and was dropped."});
}
