// What is drawn and told of a layout with conditions and with checks over one another.
#include <catch2/catch.hpp>
#include <string>

#include "render/crowded_layout.h"
#include "render/memory_plan.h"
#include "sheet/sheet.h"
#include "support/page_reader.h"
#include "terminal/compare.h"
#include "terminal/layouts.h"
#include "terminal/map.h"
#include "terminal/report.h"
#include "terminal/show.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

bool has(const std::string& text, std::string_view words) {
  return text.find(words) != std::string::npos;
}

/// The AT image, where 23h is 0: no copy, and neither condition holds.
const Crowded& plain() {
  static const Crowded card(at_64_image());
  return card;
}

std::string sheet_of(const Crowded& card) {
  Sheet sheet{"", "", card.card(), {}, {}};
  sheet.sources = true;
  return sheet_html(sheet);
}

/// The plain text of one section of a sheet.
std::string section(const Crowded& card, const std::string& id) {
  const auto page = read_page(sheet_of(card));
  const auto found = with(page, "id", id);
  REQUIRE(found.size() == 1);
  return rtcmend::test::plain(found.front().inside);
}

MemoryPlan plan_of(const Crowded& card) {
  return memory_plan(card.dump.image, card.layout, card.examination);
}

}  // namespace

TEST_CASE("a printed layout names the bytes of a field once, and what is conditional") {
  const std::string text = layout_text(crowded_layout(), Ink());
  CHECK(
      has(text,
          "  1D 1E.3-0   cylinders  Cylinders\n              0-4095\n              shown only\n"));
  CHECK(has(text, "  20          whole_type  Type\n"));
  CHECK(has(text, "1-99 go to byte 21\n"));
  CHECK(has(text, "xor-10-13: all bytes xored over 10-13 (under a condition)\n"));
}

TEST_CASE("a sheet names the bytes of a field once, and the byte that an escape leads to") {
  const std::string fields = section(plain(), "fields");
  CHECK(has(fields, "1D, 1E bits 3-0Cylinders cylinders"));
  CHECK(has(fields, "20, 21Type whole_type"));
}

TEST_CASE("a field whose condition does not hold is not in use, whatever its bits say") {
  CHECK(has(section(plain(), "fields"), "22Hour of the copy copy_hournot in use"));
  CHECK(has(show_text(plain().card(), RegisterDetail::a_line_each, Ink()),
            "  22       Hour of the copy ............. not in use   copy_hour\n"));
  const Crowded on(with_bytes(at_64_image(), {{0x23, 0x01}, {0x22, 0x23}}));
  CHECK(has(section(on, "fields"), "22Hour of the copy copy_hour23"));
}

TEST_CASE("a value that cannot be is told with its reason on a sheet") {
  const Crowded odd(with_bytes(at_64_image(), {{0x23, 0x01}, {0x22, 0x2A}}));
  CHECK(has(section(odd, "fields"), "No meaning: code 42 (2Ah is not made of decimal digits)"));
  const Crowded unknown(without(at_64_image(), {0x22, 0x22}));
  CHECK(has(section(unknown, "fields"), "22Hour of the copy copy_hournot in use"));
  const Crowded missing(without(with_bytes(at_64_image(), {{0x23, 0x01}}), {0x22, 0x22}));
  CHECK(has(section(missing, "fields"), "22Hour of the copy copy_hourunknown"));
}

TEST_CASE("a check whose condition does not hold is not judged and not drawn") {
  CHECK(has(verify_text(plain().card(), Ink()),
            "  36       sum-34-35: 8-bit sum over 34-35\n           does not count here\n"));
  CHECK(has(section(plain(), "checks"), "3 sum-34-358-bit sum34-3536????does not count here"));
  const MemoryPlan plan = plan_of(plain());
  CHECK(plan.bytes[0x34].covered_by.empty());
  CHECK(plan.bytes[0x36].stores.empty());
  CHECK(has(rtcmend::test::plain(sheet_of(plain())), "3 sum-34-35 does not count here: no line"));
  const Crowded counted(with_bytes(at_64_image(), {{0x23, 0x02}}));
  CHECK(plan_of(counted).bytes[0x34].covered_by == std::vector<std::size_t>{2});
}

TEST_CASE("a stretch whose condition does not hold has no line, one that cannot be judged has") {
  CHECK(plan_of(plain()).bytes[0x10].covered_by == std::vector<std::size_t>{0});
  const Crowded counted(with_bytes(at_64_image(), {{0x23, 0x01}}));
  CHECK(plan_of(counted).bytes[0x10].covered_by == std::vector<std::size_t>{0, 1});
  const Crowded unknown(without(at_64_image(), {0x23, 0x23}));
  CHECK(plan_of(unknown).bytes[0x10].covered_by == std::vector<std::size_t>{0, 1});
}

TEST_CASE("a check none of whose stretches counts does not count in a sound dump") {
  const std::string text = verify_text(plain().card(), Ink());
  CHECK(has(text, "  verdict    Sound: settings proven, clock right. (1 note)\n"));
  CHECK(has(text,
            "  30       xor-10-13: all bytes xored over 10-13\n           does not count here\n"));
}

TEST_CASE("a check over bytes that are all the same proves nothing where no other does") {
  CHECK(has(verify_text(plain().card(), Ink()),
            "  3B       sum-3a: 8-bit sum over 3A, 3C\n           holds  00\n"));
  const Crowded broken(with_bytes(at_64_image(), {{0x2F, 0x68}, {0x39, 0x01}}));
  CHECK(has(verify_text(broken.card(), Ink()),
            "  3B       sum-3a: 8-bit sum over 3A, 3C\n"
            "           proves nothing: every byte is the same\n"));
  CHECK(has(section(broken, "checks"), "5 sum-3a8-bit sum3A, 3C3B0000proves nothing"));
}

TEST_CASE("checks over the same bytes have lines one under the other, and a plus on the map") {
  const Crowded counted(with_bytes(at_64_image(), {{0x23, 0x01}}));
  const std::string map = map_text(counted.card(), Ink());
  CHECK(has(map, "      .+ .+ .+ .+ .1 .1"));
  CHECK(has(map,
            "  5           covered by check sum-3a\n"
            "  +           covered by several checks\n"));
  const auto page = read_page(sheet_of(counted));
  std::vector<std::string> first_lane, second_lane;
  for (const auto& line : with(page, "class", "lane lane-0"))
    first_lane.push_back(line.attributes.at("y1"));
  for (const auto& line : with(page, "class", "lane lane-1"))
    second_lane.push_back(line.attributes.at("y1"));
  // The first row of either check: 17 lower for the second, which shares its bytes.
  REQUIRE(first_lane.size() >= 1);
  REQUIRE(second_lane.size() >= 1);
  CHECK(std::stoi(second_lane[0]) == std::stoi(first_lane[0]) + 17);
}

TEST_CASE("a check's line is broken where it does not cover") {
  // sum-3a covers 3Ah and 3Ch and is stored between them: one line. sum-10-2d runs over two rows.
  const auto page = read_page(sheet_of(plain()));
  CHECK(with(page, "class", "lane lane-0").size() >= 3);
}

TEST_CASE("more than nine checks share the plus") {
  Layout layout = crowded_layout();
  layout.checks.clear();
  for (Address at = 0x10; at < 0x1B; ++at) {
    Check check;
    check.id = "xor-" + std::to_string(at);
    check.rule = XorRule{};
    check.over = {{{at, at}, std::nullopt}};
    check.stored_at = static_cast<Address>(at + 0x10);
    layout.checks.push_back(check);
  }
  const Dump dump{at_64_image(), Form::raw, "", ""};
  const std::string name = "dump.bin";
  const Examination examination = examine(dump.image, layout);
  const std::string map = map_text({name, dump, layout, examination}, Ink());
  CHECK(has(map, "      .1 .2 .3 .4 .5 .6 .7 .8  .9 .+ .+ ."));
  CHECK(has(map,
            "  9           covered by check xor-24\n"
            "  +           covered by several checks, or by one after the ninth\n"));
}

TEST_CASE("differences in a password's bytes are told without the bytes") {
  const Comparison comparison{
      false,
      {{0x38, 0x11, 0x22, {"word"}, ""}, {0x39, 0x11, std::nullopt, {"word-check"}, "it ticks"}}};
  CHECK(compare_text(comparison, crowded_layout(), Ink()) ==
        "Different: 1 byte that matters.\n"
        "Matters\n"
        "  at  wanted  found  belongs to\n"
        "  38  **      **     word\n"
        "Does not matter\n"
        "  at  wanted  found  belongs to\n"
        "  39  11      ??     word-check; it ticks\n");
}

TEST_CASE("a mirrored dump and an open tie are told with the candidates") {
  Identification found;
  CHECK(identify_text(found, Ink()) == "No layout fits.\n");
  found.candidates = {{"at", 16.5, "its sum holds"}, {"at-x", 16.5, "its sum holds"}};
  found.tied = {"at", "at-x"};
  found.mirrored = true;
  CHECK(identify_text(found, Ink()) ==
        "No layout is clearly ahead.\n"
        "The dump holds 64 bytes twice, as a 64-byte part gives them: they are taken\n"
        "once.\n"
        "  layout  evidence in bits\n"
        "  at        16.5  its sum holds\n"
        "  at-x      16.5  its sum holds\n"
        "The first 2 are tied: the bytes do not tell them apart.\n");
}

TEST_CASE("bits of a byte that is lost are a change of all it belongs to") {
  const auto lost = changes(at_64_image(), without(at_64_image(), {0x20, 0x20}), crowded_layout());
  REQUIRE(lost.size() == 1);
  CHECK(lost[0].after == std::nullopt);
  CHECK(lost[0].fields == std::vector<std::string>{"whole_type"});
}

TEST_CASE("a layout without fields says so on a sheet") {
  Layout bare = crowded_layout();
  bare.fields.clear();
  bare.checks.clear();
  const Dump dump{at_64_image(), Form::raw, "", ""};
  const std::string name = "dump.bin";
  const Examination examination = examine(dump.image, bare);
  Sheet sheet{"", "", {name, dump, bare, examination}, {}, {}};
  sheet.sources = true;
  const std::string page = sheet_html(sheet);
  CHECK(has(page, "This layout names no fields: it knows the chip and nothing about the RAM."));
  CHECK(has(page, "None: this layout has no rule that ties bytes together."));
}
