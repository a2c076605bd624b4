#include "sheet/sheet.h"

#include <catch2/catch.hpp>
#include <set>

#include "forms/rows.h"
#include "layout/parts_catalogue.h"
#include "render/small_layout.h"
#include "support/page_reader.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

using Elements = std::vector<PageElement>;

Sheet about(const Shown& shown) {
  return {"", "", shown.card(), forecast(shown.examination, shown.layout),
          suspects(shown.dump.image, shown.layout)};
}

std::string sheet_of(const Shown& shown, const std::string& title = "",
                     const std::string& note = "") {
  Sheet sheet = about(shown);
  sheet.title = title;
  sheet.note = note;
  return sheet_html(sheet);
}

std::string sheet_with_sources(const Shown& shown) {
  Sheet sheet = about(shown);
  sheet.sources = true;
  return sheet_html(sheet);
}

std::vector<std::string> headings(const Elements& page) {
  std::vector<std::string> all;
  for (const PageElement& heading : named(page, "h2")) all.push_back(plain(heading.inside));
  return all;
}

bool says(const std::string& page, const std::string& text) {
  return page.find(text) != std::string::npos;
}

/// The plain text of the one section with this id.
std::string section(const Elements& page, const std::string& id) {
  const Elements found = with(page, "id", id);
  REQUIRE(found.size() == 1);
  return plain(found.front().inside);
}

}  // namespace

TEST_CASE("a sheet has its parts, each with a heading, in landmarks") {
  const Shown shown(at_64_image());
  const Elements page = read_page(sheet_of(shown));
  for (const char* landmark : {"header", "nav", "main", "footer", "h1"})
    CHECK(named(page, landmark).size() == 1);
  CHECK(named(page, "html").front().attributes.at("lang") == "en");
  CHECK(headings(page) == std::vector<std::string>{"Settings", "Plan of the memory", "Findings",
                                                   "Bytes for typing, and for a phone",
                                                   "Cautions for the bench"});
}

TEST_CASE("what it rests on, and the work on the cell, are on a sheet that is asked for them") {
  const Shown shown(at_64_image());
  CHECK(headings(read_page(sheet_with_sources(shown))) ==
        std::vector<std::string>{"Settings", "Plan of the memory", "Findings",
                                 "Bytes for typing, and for a phone", "Cautions for the bench",
                                 "Checks", "Registers A to D", "Where each fact comes from"});
  Sheet sheet = about(shown);
  sheet.plan = usual_plan({2026, 11, 30, 12, 0, 0});
  CHECK(headings(read_page(sheet_html(sheet))).back() == "The next cell");
}

TEST_CASE("an image that is not sound says so above its bytes") {
  const Shown shown(with_bytes(at_64_image(), {{0x2F, 0x68}}));
  const std::string page = sheet_of(shown);
  const std::string rows = section(read_page(page), "rows");
  CHECK(rows.find("This image is not sound, and copying it does not mend it") < rows.find("00: "));
  CHECK_FALSE(says(section(read_page(sheet_of(Shown(at_64_image()))), "rows"), "not sound"));
}

TEST_CASE("a sheet is set for two pages, that of a sound image of 64 bytes for one") {
  CHECK(says(sheet_of(Shown(at_64_image())), "<div class=\"card short one-page\">"));
  CHECK(says(sheet_of(Shown(with_bytes(at_64_image(), {{0x2F, 0x68}}))),
             "<div class=\"card short\">"));
  CHECK(says(sheet_with_sources(Shown(at_64_image())), "<div class=\"card\">"));
}

TEST_CASE("a sheet needs nothing from outside and runs nothing") {
  const Shown shown(at_64_image());
  const std::string text = sheet_of(shown);
  const Elements page = read_page(text);
  for (const char* element : {"script", "link", "img", "iframe", "object", "base"})
    CHECK(named(page, element).empty());
  for (const PageElement& element : page)
    for (const auto& [name, value] : element.attributes) {
      CHECK_FALSE(name.starts_with("on"));
      CHECK(name != "src");
      if (name == "href") CHECK(value.starts_with("#"));
    }
  CHECK_FALSE(says(text, "@import"));
  CHECK_FALSE(says(text, "url("));
  const Elements policy = with(page, "http-equiv", "Content-Security-Policy");
  REQUIRE(policy.size() == 1);
  CHECK(policy.front().attributes.at("content").starts_with("default-src &#39;none&#39;;"));
}

TEST_CASE("every reference on a sheet leads somewhere, and no id is there twice") {
  const Shown shown(with_bytes(at_64_image(), {{0x2F, 0x68}}));
  const Elements page = read_page(sheet_of(shown));
  std::set<std::string> ids;
  for (const PageElement& element : page)
    if (const auto id = element.attributes.find("id"); id != element.attributes.end())
      CHECK(ids.insert(id->second).second);
  for (const PageElement& element : page)
    for (const char* refers : {"href", "aria-labelledby", "aria-describedby"})
      if (const auto to = element.attributes.find(refers); to != element.attributes.end()) {
        const std::string id = to->second.substr(to->second.starts_with('#') ? 1 : 0);
        INFO(id);
        CHECK(ids.count(id) == 1);
      }
}

TEST_CASE("every table says what its columns and rows are") {
  const Shown shown(with_bytes(at_64_image(), {{0x2F, 0x68}}));
  const Elements page = read_page(sheet_with_sources(shown));
  REQUIRE(named(page, "table").size() == 6);  // three groups of fields, codes, checks, registers
  for (const PageElement& cell : named(page, "th")) {
    const std::string scope = cell.attributes.at("scope");
    CHECK((scope == "col" || scope == "row"));
  }
  for (const PageElement& table : named(page, "table")) {
    CHECK(says(table.inside, "scope=\"col\""));
    CHECK(says(table.inside, "scope=\"row\""));
  }
}

TEST_CASE("the drawing has a name and says in words what it marks") {
  const Shown shown(without(with_bytes(at_64_image(), {{0x2F, 0x68}}), {0x00, 0x09}));
  const Elements page = read_page(sheet_of(shown));
  const Elements drawing = with(page, "class", "drawing");
  REQUIRE(drawing.size() == 1);
  CHECK(drawing.front().attributes.at("aria-labelledby") == "drawing-title");
  const std::string words = section(page, "drawing-words");
  CHECK(says(words, "64 bytes, sixteen a row"));
  CHECK(says(words, "Damaged: 2Eh-2Fh."));
  CHECK(says(words, "Unknown: 00h-09h."));
}

TEST_CASE("the drawing has a cell for every byte, with its value") {
  const Shown shown(without(at_64_image(), {0x00, 0x01}));
  const Elements page = read_page(sheet_of(shown));
  std::vector<std::string> values;
  for (const PageElement& text : named(page, "text"))
    if (text.attributes.at("class").starts_with("value")) values.push_back(text.inside);
  REQUIRE(values.size() >= 64);
  CHECK(values[0x00] == "??");
  CHECK(values[0x02] == "30");
  CHECK(values[0x12] == "F0");
  CHECK(values[0x2E] == "02");
  CHECK(values[0x2F] == "67");
  CHECK(values[0x38] == "**");
}

TEST_CASE("damage, doubt, unknown bytes and the standing of a check differ in shape") {
  const Shown sound(at_64_image());
  const std::string good = sheet_of(sound);
  CHECK_FALSE(says(good, "class=\"strike\""));
  CHECK_FALSE(says(good, "class=\"dashed\""));
  CHECK(says(good, "class=\"seal holds\""));
  const Shown damaged(without(with_bytes(at_64_image(), {{0x2F, 0x68}}), {0x00, 0x01}));
  const std::string bad = sheet_of(damaged);
  CHECK(says(bad, "class=\"strike\""));
  CHECK(says(bad, "class=\"dashed\""));
  CHECK(says(bad, "class=\"seal open\""));
  CHECK(says(bad, "class=\"cross\""));
}

TEST_CASE("checks stand with what is stored and what they come to") {
  const Shown shown(with_bytes(at_64_image(), {{0x2F, 0x68}}));
  const std::string checks = section(read_page(sheet_with_sources(shown)), "checks");
  // 0267h: sound_images.h.
  CHECK(says(checks, "1 sum-10-2d16-bit sum10-2D2E-2F02680267DOES NOT HOLD"));
}

TEST_CASE("settings stand by group with their bytes and what they say") {
  const Shown shown(at_64_image());
  const std::string fields = section(read_page(sheet_of(shown)), "fields");
  CHECK(says(fields, "A Drives"));
  CHECK(says(fields, "10 bits 7-4First floppy drive1.44M"));
  CHECK(says(fields, "15-16Base memory640 KiB"));
}

TEST_CASE("with its sources a sheet has the names of fields") {
  const Shown shown(at_64_image());
  const std::string fields = section(read_page(sheet_with_sources(shown)), "fields");
  CHECK(says(fields, "A Drives"));
  CHECK(says(fields, "10 bits 7-4First floppy drive floppy_a1.44M"));
  CHECK(says(fields, "12 bits 7-4, 19First fixed disk, type disk_0_type39"));
  CHECK(says(fields, "15-16Base memory base_memory_kib640 KiB"));
  CHECK(says(fields, "C Locks"));
  CHECK(says(fields, "38-3FPassword wordnot set"));
}

TEST_CASE("clock and registers are there in words") {
  const Shown shown(at_64_image());
  const Elements page = read_page(sheet_with_sources(shown));
  const std::string settings = section(page, "fields");
  CHECK(says(settings, "2031-05-14 09:30:00, Wednesday; running"));
  CHECK(says(settings, "BCD, 24 hours"));
  const std::string registers = section(page, "registers");
  CHECK(says(registers, "B0B0224/12 24-hour mode"));
  CHECK(says(registers, "D0D80VRT RAM and time valid"));
}

TEST_CASE("a finding says what to do, and a failed check foretells code 162") {
  const Shown shown(with_bytes(at_64_image(), {{0x2F, 0x68}}));
  const Elements page = read_page(sheet_of(shown));
  CHECK(says(section(page, "findings"), "fault check-mismatch at 2E-2F"));
  CHECK(says(section(page, "findings"), "Do: "));
  // 162: common practice (OEM manuals print it), as layouts/post-codes.json has it.
  CHECK(says(section(page, "codes"), "162"));
  CHECK(says(sheet_of(shown),
             "<p class=\"stamp verdict fault\">Settings broken; the clock is right. (1 fault)"));
}

TEST_CASE("the rows on a sheet read back as the image") {
  const Shown shown(without(at_64_image(), {0x38, 0x3F}));
  const Elements rows = named(read_page(sheet_of(shown)), "pre");
  REQUIRE(rows.size() == 1);
  CHECK(read_dump(plain(rows.front().inside), "sheet", Form::rows).image == shown.dump.image);
}

TEST_CASE("bytes of passwords are nowhere on a sheet") {
  const Shown shown(with_bytes(at_64_image(), {{0x38, 0xA7}}));
  const std::string text = sheet_of(shown);
  CHECK_FALSE(says(plain(text.substr(text.find("<body>"))), "A7"));
  CHECK(says(section(read_page(text), "fields"), "38-3FPasswordset"));
  const Elements rows = named(read_page(text), "pre");
  CHECK(says(plain(rows.front().inside), "?? ?? ?? ?? ?? ?? ?? ?? ="));
}

TEST_CASE("each source is listed once, and marks lead to it") {
  const Shown shown(at_64_image());
  const Elements page = read_page(sheet_with_sources(shown));
  const std::string sources = section(page, "sources");
  for (const char* source : {"MC146818A; DS12885", "RBIL61 C0007", "RBIL61 CMOS 2Eh",
                             "common practice, no source", "Made for the tests."})
    CHECK(says(sources, source));
  CHECK(with(page, "href", "#source-1").size() == 1);
}

TEST_CASE("title and note stand on the card, the note with its lines") {
  const Shown shown(at_64_image());
  const Elements page = read_page(sheet_of(shown, "Bramble", "On the shelf.\nCell of 2031."));
  CHECK(plain(named(page, "h1").front().inside) == "Bramble");
  CHECK(
      says(sheet_of(shown, "", "On the shelf.\nCell of 2031."), "On the shelf.<br>Cell of 2031."));
}

TEST_CASE("the folder of the dump is not told") {
  Shown shown(at_64_image());
  shown.name = "/home/somebody/private/bramble.bin";
  CHECK_FALSE(says(sheet_of(shown), "somebody"));
  CHECK(says(sheet_of(shown), "<h1>bramble.bin</h1>"));
}

TEST_CASE("with a plan the sheet says how long a new cell lasts, and how it is changed") {
  const Shown shown(at_64_image());
  PlanQuestion question;
  question.cell = cell_named("2032");
  question.fitted = {2026, 11, 25, 12, 0, 0};
  const std::string page = sheet_html({"", "", shown.card(), {}, {}, plan_cell(question)});
  const std::string plan = section(read_page(page), "plan");
  // 225 mAh typical, ten years of shelf life: LiCoin. The margin of two years is rtcmend's own.
  CHECK(says(plan, "2032, 225 mAh, 3 V"));
  CHECK(says(plan, "8 to 10 years, limited by its shelf life, not its charge"));
  CHECK(says(plan, "The work"));
  CHECK(with(read_page(sheet_of(shown)), "id", "plan").empty());
}

TEST_CASE("a plan for a named part whose charge ends first says so on the sheet") {
  const Shown shown(at_64_image());
  PlanQuestion question;
  question.part = need_part("DS12887");
  question.cell = cell_named("1220");
  question.chip_microamps = 5;
  question.fitted = {2026, 11, 25, 12, 0, 0};
  const std::string page = sheet_html({"", "", shown.card(), {}, {}, plan_cell(question)});
  const std::string plan = section(read_page(page), "plan");
  CHECK(says(plan, "PartDS12887"));
  CHECK(says(plan, "years, limited by charge"));
}
