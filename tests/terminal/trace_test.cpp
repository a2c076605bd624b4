#include "terminal/trace.h"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "render/flat.h"
#include "render/trace_json.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

using Kind = Encoding::Kind;

/// A field of one setting with three values, seen twice each.
TracedField traced(Kind kind, std::vector<Bit> bits) {
  TracedField field;
  field.settings = {"shadow"};
  field.encoding.kind = kind;
  field.encoding.bits = std::move(bits);
  field.values = {{"0", 0, 2}, {"1", 1, 2}, {"2", 2, 2}};
  return field;
}

std::string text_of(const TracedField& field) {
  Trace trace;
  trace.fields = {field};
  return trace_text(trace, {}, Ink());
}

std::string word_of(Kind kind) {
  Trace trace;
  trace.fields = {traced(kind, {{0x20, 0}})};
  return trace_json(trace, {})["fields"][0]["encoding"];
}

/// The second line: where and how.
std::string place_line(const TracedField& field) {
  const std::string text = text_of(field);
  const auto from = text.find('\n') + 1;
  return text.substr(from, text.find('\n', from) - from);
}

Model sum_model(double chance) {
  Model model;
  model.check.over = {{{0x10, 0x2D}, std::nullopt}};
  model.check.stored_at = 0x2E;
  model.chance = chance;
  return model;
}

}  // namespace

TEST_CASE("bits of one byte without a gap are one piece, a whole byte needs no bits") {
  CHECK(place_line(traced(Kind::flag, {{0x20, 5}})) == "  20h bit 5: yes or no");
  CHECK(place_line(traced(Kind::choice, {{0x20, 7}, {0x20, 6}, {0x20, 5}})) ==
        "  20h bits 7-5: codes");
  CHECK(place_line(traced(Kind::choice, {{0x20, 7}, {0x20, 5}, {0x21, 4}})) ==
        "  20h bit 7, 20h bit 5, 21h bit 4: codes");
  std::vector<Bit> whole;
  for (int bit = 7; bit >= 0; --bit) whole.push_back({0x20, static_cast<std::uint8_t>(bit)});
  CHECK(place_line(traced(Kind::bcd, whole)) == "  20h: decimal digits, four bits each");
  whole.pop_back();
  CHECK(place_line(traced(Kind::choice, whole)) == "  20h bits 7-1: codes");
}

TEST_CASE("a traced number says its steps, where it counts from, and when it is a guess") {
  TracedField field = traced(Kind::number, {{0x20, 1}, {0x20, 0}});
  CHECK(place_line(field) == "  20h bits 1-0: a number");
  field.encoding.scale = 64;
  field.encoding.offset = 640;
  CHECK(place_line(field) == "  20h bits 1-0: a number, stored in steps of 64, counted from 640");
  field.values.pop_back();
  CHECK(flat(text_of(field)).find("counted from 640 (from two values only: a guess)") !=
        std::string::npos);
}

TEST_CASE("a field that several settings work out is no code of one of them") {
  TracedField field = traced(Kind::choice, {{0x20, 0}});
  field.settings = {"floppy_a", "floppy_b"};
  CHECK(text_of(field).starts_with("floppy_a and floppy_b\n"));
  CHECK(place_line(field) == "  20h bit 0: follows from these settings");
}

TEST_CASE("values say when they were seen once, and copies and companions are told") {
  TracedField field = traced(Kind::choice, {{0x20, 0}});
  field.values = {{"off", 0, 2}, {"on", 1, 1}};
  field.encoding.copies = {{{0x30, 4}}};
  field.drags = {"parity"};
  field.dragged_by = {"memory"};
  CHECK(text_of(field) ==
        "shadow\n"
        "  20h bit 0: codes\n"
        "  off is 0, on is 1 (seen once)\n"
        "  once more at 30h bit 4\n"
        "  moves along: parity\n"
        "  moved along by: memory\n"
        "\n");
  Trace trace;
  trace.fields = {field};
  const Json json = trace_json(trace, {})["fields"][0];
  CHECK(json["copies"] == Json::parse(R"([[{"at": 48, "bit": 4}]])"));
  CHECK(json["drags"] == Json({"parity"}));
  CHECK(json["dragged_by"] == Json({"memory"}));
}

TEST_CASE("every encoding has its word in JSON") {
  CHECK(word_of(Kind::number) == "number");
  CHECK(word_of(Kind::bcd) == "bcd");
  CHECK(word_of(Kind::flag) == "flag");
  CHECK(word_of(Kind::choice) == "choice");
}

TEST_CASE("a check that may be luck is told as perhaps one") {
  Trace trace;
  trace.checks = {sum_model(1e-6), sum_model(3)};
  CHECK(trace_text(trace, {}, Ink()) ==
        "Check: 16-bit sum over 10h-2Dh, stored at 2Eh-2Fh, high byte first.\n"
        "Perhaps a check: 16-bit sum over 10h-2Dh, stored at 2Eh-2Fh, high byte first.\n");
  const Json json = trace_json(trace, {});
  CHECK(json["checks"][0]["found"] == true);
  CHECK(json["checks"][1]["found"] == false);
}

TEST_CASE("what a session leaves open is told: silent settings, contradictions, an early stop") {
  Trace trace;
  trace.restless = {0x0E, 0x0F};
  trace.silent = {"speaker", "keyboard"};
  trace.contradictions = {
      {"display", "mono", "a.bin", "b.bin", {0x14}, "display=mono is 0 in a.bin and 1 in b.bin"}};
  trace.notes = {"One dump was read twice."};
  trace.complete = false;
  Draft draft;
  draft.notes = {"floppy_a was left as it was."};
  CHECK(flat(trace_text(trace, draft, Ink())) ==
        "Changes by itself: 0Eh-0Fh. "
        "Nothing followed: speaker, keyboard; it may live outside this chip, or in a byte that "
        "changes by itself. "
        "Contradiction: display=mono is 0 in a.bin and 1 in b.bin. "
        "Note: One dump was read twice. "
        "Merging: floppy_a was left as it was. "
        "Stopped early: a check may be missing.");
  const Json json = trace_json(trace, draft);
  CHECK(json["silent"] == Json({"speaker", "keyboard"}));
  CHECK(json["contradictions"][0] ==
        Json::parse(R"({"label": "display", "value": "mono", "dumps": ["a.bin", "b.bin"],
                        "at": [20], "text": "display=mono is 0 in a.bin and 1 in b.bin"})"));
  CHECK(json["merging"] == Json({"floppy_a was left as it was."}));
  CHECK(json["complete"] == false);
}
