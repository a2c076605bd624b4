// Drafts from traces that are typed in, each read back as the layout file that it is.

#include "discover/draft.h"

#include <catch2/catch.hpp>

#include "base/error.h"
#include "layout/library.h"
#include "layout/load.h"

using namespace rtcmend;
using Json = nlohmann::ordered_json;

namespace {

std::vector<Bit> byte_bits(Address at) {
  std::vector<Bit> bits;
  for (std::uint8_t i = 8; i-- > 0;) bits.push_back({at, i});
  return bits;
}

TracedField traced(const std::string& setting, const Encoding& encoding,
                   std::vector<TracedValue> values) {
  TracedField field;
  field.settings = {setting};
  field.encoding = encoding;
  field.values = std::move(values);
  return field;
}

Trace with_field(TracedField field) {
  Trace trace;
  trace.fields.push_back(std::move(field));
  return trace;
}

Layout loaded(const Draft& draft) {
  return load_layout(draft.layout.dump(), "draft.json", embedded_text);
}

Model found(Check check) {
  Model model;
  model.check = std::move(check);
  model.firsts = {model.check.over[0].range.first, model.check.over[0].range.first};
  model.lasts = {model.check.over[0].range.last, model.check.over[0].range.last};
  model.chance = 1e-9;
  return model;
}

Check check_of(Rule rule, Address at, Order order = Order::high_first) {
  Check check;
  check.id = "sum";
  check.rule = rule;
  check.over = {{{0x10, 0x2D}, {}}};
  check.stored_at = at;
  check.order = order;
  return check;
}

Draft merged(const Json& earlier, const Draft& found) {
  const std::string text = earlier.dump();
  return merge_draft({text, "draft.json", load_layout(text, "draft.json", embedded_text)}, found);
}

Json choice_at(const std::string& id, const std::string& at, const Json& choice) {
  return {{"id", id}, {"label", id},      {"group", "traced"},
          {"at", at}, {"choice", choice}, {"source", "typed in"}};
}

Draft of_fields(const Json& fields, const Json& checks = Json::array()) {
  return {{{"layout", "draft"},
           {"title", "Draft"},
           {"size", 64},
           {"fields", fields},
           {"checks", checks}},
          {}};
}

}  // namespace

TEST_CASE("a number with scale and offset is drafted so that it reads the same") {
  const Trace trace =
      with_field(traced("heads", {Encoding::Kind::number, byte_bits(0x20), 2, 3, "", {}},
                        {{"3", 0, 2}, {"5", 1, 2}, {"13", 5, 2}}));
  const Layout layout = loaded(draft_layout(trace));
  const Field& field = layout.need_field("heads");
  CHECK(field.meaning == Meaning::number);
  CHECK(field.scale == 2);
  CHECK(field.offset == 3);
  CHECK(field.note == "A number: all values lie on one line.");
  CHECK(field.source == "traced: 3 values, at least 2 dumps each");
}

TEST_CASE("what two values alone show is said to be weak") {
  const Trace trace =
      with_field(traced("heads", {Encoding::Kind::number, byte_bits(0x20), 1, 0, "", {}},
                        {{"2", 2, 1}, {"5", 5, 3}}));
  const Layout layout = loaded(draft_layout(trace));
  CHECK(layout.need_field("heads").note == "Taken for a number from two values only.");
  CHECK(layout.need_field("heads").source ==
        "traced: 2 values, one dump each, so a guess until seen twice");
}

TEST_CASE("settings of one name get ids of their own") {
  Trace trace = with_field(traced("Cache!", {Encoding::Kind::flag, {{0x20, 1}}, 1, 0, "", {}},
                                  {{"off", 0, 2}, {"on", 1, 2}}));
  trace.fields.push_back(traced("cache", {Encoding::Kind::flag, {{0x20, 2}}, 1, 0, "", {}},
                                {{"off", 0, 2}, {"on", 1, 2}}));
  trace.fields.push_back(traced("cache?", {Encoding::Kind::flag, {{0x20, 3}}, 1, 0, "", {}},
                                {{"off", 0, 2}, {"on", 1, 2}}));
  const Layout layout = loaded(draft_layout(trace));
  REQUIRE(layout.fields.size() == 3);
  CHECK(layout.fields[0].id == "cache");
  CHECK(layout.fields[1].id == "cache_2");
  CHECK(layout.fields[2].id == "cache_3");
}

TEST_CASE("values that are stored alike share a name") {
  const Trace trace =
      with_field(traced("disk", {Encoding::Kind::choice, byte_bits(0x20), 1, 0, "", {}},
                        {{"none", 0, 2}, {"fast", 1, 2}, {"quiet", 1, 2}, {"fast", 1, 2}}));
  const Layout layout = loaded(draft_layout(trace));
  REQUIRE(layout.need_field("disk").choices.size() == 2);
  CHECK(layout.need_field("disk").choices[1].name == "fast or quiet");
}

TEST_CASE("codes whose names are too long for a layout are drafted as a plain number") {
  const Trace trace =
      with_field(traced("disk", {Encoding::Kind::choice, byte_bits(0x20), 1, 0, "", {}},
                        {{std::string(61, 'x'), 0, 2}, {"short", 1, 2}}));
  CHECK(loaded(draft_layout(trace)).need_field("disk").meaning == Meaning::number);
}

TEST_CASE("what a session contradicts is told in the notes of the draft") {
  Trace trace = with_field(traced("cache", {Encoding::Kind::flag, {{0x20, 1}}, 1, 0, "", {}},
                                  {{"off", 0, 2}, {"on", 1, 2}}));
  Contradiction contradiction;
  contradiction.text = "The two dumps of cache=on differ.";
  trace.contradictions.push_back(contradiction);
  const Draft draft = draft_layout(trace);
  REQUIRE(draft.layout["notes"].size() == 2);
  CHECK(draft.layout["notes"][1] == "The two dumps of cache=on differ.");
}

TEST_CASE("every kind of sum is drafted so that it reads the same") {
  for (const SumRule& sum :
       {SumRule{16, 0, Sign::plain, {}}, SumRule{16, 0x1234, Sign::negated, {}},
        SumRule{16, 0, Sign::complemented, {}}, SumRule{8, 0x5A, Sign::plain, {}},
        SumRule{16, 0, Sign::plain, Order::low_first},
        SumRule{16, 0, Sign::plain, Order::high_first}}) {
    for (const Order order : {Order::low_first, Order::high_first}) {
      Trace trace;
      trace.checks.push_back(found(check_of(sum, 0x2E, order)));
      const Layout layout = loaded(draft_layout(trace));
      REQUIRE(layout.checks.size() == 1);
      CHECK(std::get<SumRule>(layout.checks[0].rule) == sum);
      if (sum.width == 16) CHECK(layout.checks[0].order == order);
    }
  }
}

TEST_CASE("a check whose range could end elsewhere says so") {
  Model model = found(check_of(SumRule{16, 0, Sign::plain, {}}, 0x2E));
  model.lasts = {0x2B, 0x2D};
  Trace trace;
  trace.checks.push_back(model);
  CHECK(loaded(draft_layout(trace)).checks[0].source ==
        "solved: by luck 1e-09 checks would agree with these dumps; the range may begin at 10h to "
        "10h and end at 2Bh to 2Dh");
}

TEST_CASE("a draft for a chip of another size is not merged") {
  Json earlier = of_fields(Json::array()).layout;
  earlier["size"] = 128;
  CHECK_THROWS_AS(merged(earlier, of_fields(Json::array())), Error);
}

TEST_CASE("merging leaves a code that has another name, and says so") {
  const Draft earlier =
      of_fields(Json::array({choice_at("disk", "20", {{"0", "none"}, {"1", "fast"}})}));
  const Draft again =
      of_fields(Json::array({choice_at("disk", "20", {{"1", "quiet"}, {"2", "slow"}})}));
  const Draft both = merged(earlier.layout, again);
  CHECK(both.layout["fields"][0]["choice"] == Json({{"0", "none"}, {"1", "fast"}, {"2", "slow"}}));
  CHECK(both.notes ==
        std::vector<std::string>{"disk: code 1 was fast and now showed quiet; it was left."});
}

TEST_CASE("merging leaves a field of one name that stands elsewhere or means something else") {
  const Draft earlier =
      of_fields(Json::array({choice_at("disk", "20", {{"0", "none"}, {"1", "fast"}})}));
  Json number = choice_at("disk", "20", {});
  number.erase("choice");
  number["number"] = Json::object();
  for (const Json& other : {choice_at("disk", "21", {{"2", "slow"}}), number}) {
    const Draft both = merged(earlier.layout, of_fields(Json::array({other})));
    CHECK(both.layout["fields"] == earlier.layout["fields"]);
    CHECK(both.notes ==
          std::vector<std::string>{"disk is in the draft already and was left as it is."});
  }
}

TEST_CASE("merging leaves a field that an included part has, and knows the bits of escapes") {
  const Json earlier = {{"layout", "mine"}, {"title", "AT class"}, {"of", "at"}};
  // Byte 19h holds the type of the first disk when its nibble says 15 (RBIL61, CMOS 12h and 19h).
  const Draft found = of_fields(
      {choice_at("floppy_a", "3A", {{"1", "some"}}), choice_at("mine", "19", {{"1", "some"}})});
  const Draft both = merged(earlier, found);
  CHECK(both.layout["fields"].empty());
  CHECK(both.notes ==
        std::vector<std::string>{
            "floppy_a is in a part that the draft includes and was left as it is.",
            "mine wants bits that the draft gives to something else, and was left out."});
}

TEST_CASE("merging adds a check once, and never over bytes that are taken") {
  const Draft plain =
      of_fields(Json::array({choice_at("disk", "2F", {{"0", "none"}, {"1", "fast"}})}));
  const auto entry = [](const char* id, Address at) {
    Check check = check_of(SumRule{16, 0, Sign::plain, {}}, at);
    check.id = id;
    return check_entry(check, "solved");
  };
  const Draft found =
      of_fields(Json::array(), Json::array({entry("low", 0x2E), entry("free", 0x30)}));
  const Draft both = merged(plain.layout, found);
  REQUIRE(both.layout["checks"].size() == 1);
  CHECK(both.layout["checks"][0]["id"] == "free");
  CHECK(both.notes.size() == 1);
  const Draft again =
      merged(both.layout, of_fields(Json::array(), Json::array({entry("free", 0x32)})));
  CHECK(again.layout["checks"] == both.layout["checks"]);
}
