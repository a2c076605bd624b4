// Whatever sends a hand to hardware says first to switch off, and points to the cautions: every
// finding, code, verdict, step and screen.
#include "chip/cautions.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <regex>
#include <set>

#include "base/files.h"
#include "base/text.h"
#include "board/firmware/protocol.h"
#include "board/refusals.h"
#include "codes/post_codes.h"
#include "deliver/basic_lines.h"
#include "deliver/guidance.h"
#include "images/injected_faults.h"
#include "images/misreads.h"
#include "judge/examine.h"
#include "judge/health.h"
#include "judge/part_findings.h"
#include "layout/library.h"
#include "layout/parts_catalogue.h"
#include "support/sound_images.h"
#include "upkeep/cell_plan.h"
#include "upkeep/retention.h"
#include "workbench.h"

using namespace rtcmend;

namespace {

/// Words that no advice uses unless a hand goes to hardware.
bool touches_hardware(const std::string& words) {
  static const std::regex hardware(
      "[Mm]easure (the|at|it|before|between|again)|[Bb]etween [0-9]+ and|[Ss]older|socket|"
      "wire of|that wire|the wires|[Cc]ontact|[Jj]umper|[Ll]ift (it|that)|bend (that|the) pin|"
      "[Rr]eseat|holder|[Ff]it a part|fit another part|rechargeable cell only|[Rr]ework|"
      "mend the cell|old cell out|part out|the potting|[Ss]wap drives|clean (the )?heads|"
      "the crystal|cell's plus|cell pins|ground that pin|address (line|strobe)|"
      "chip select|check the (drive|supply)|the cable and|data lines|leaves it open");
  // Nothing is touched by leaving a part where it is.
  static const std::regex harmless("[Oo]ut of (its|the) socket (the part|it) forgets");
  return std::regex_search(std::regex_replace(words, harmless, ""), hardware);
}

void check_advice(const Advice& advice, const std::string& where) {
  const std::string words = in_plain_words(advice);
  INFO(where << ": " << words);
  CHECK((!touches_hardware(words) || points_to_cautions(advice)));
}

struct Walk {
  std::set<std::string> seen, careful;

  void take(const std::vector<Finding>& findings) {
    for (const Finding& finding : findings) {
      seen.emplace(finding.id());
      if (points_to_cautions(finding.advice)) careful.emplace(finding.id());
      check_advice(finding.advice, std::string(finding.id()));
    }
  }

  void take(const Image& image) {
    const Layout& layout =
        built_in_layout(image.size() == Image::small_size ? "at" : "at+sum-40-7d");
    take(examine(image, layout).findings);
    take(health(image, {&layout, 1}));
    for (const Part& part : known_parts()) take(part_findings(image, layout, part));
  }
};

Image large_image() {
  std::vector<std::uint8_t> bytes = at_64_bytes();
  bytes.resize(128);
  return Image(bytes);
}

Image doubled_image() {
  std::vector<std::uint8_t> bytes = at_64_bytes();
  const std::vector<std::uint8_t> half = bytes;
  bytes.insert(bytes.end(), half.begin(), half.end());
  return Image(bytes);
}

Image ones_in_ram() {
  Image image = at_64_image();
  for (std::size_t i = Image::ram_start; i < image.size(); ++i)
    image.set(static_cast<Address>(i), 0xFF);
  return image;
}

Walk walk_findings() {
  Walk walk;
  walk.take(at_64_image());
  walk.take(large_image());
  walk.take(doubled_image());
  walk.take(ones_in_ram());
  for (const Misread& misread : every_misread(at_64_image())) walk.take(misread.image);
  // Register A: off, held, an update; B: SET, daylight saving; C and D: reserved bits, a flat cell.
  for (const auto& [at, value] :
       std::initializer_list<std::pair<Address, std::uint8_t>>{{0x0A, 0x06},
                                                               {0x0A, 0x76},
                                                               {0x0A, 0xA6},
                                                               {0x0B, 0x82},
                                                               {0x0B, 0x03},
                                                               {0x0C, 0x01},
                                                               {0x0D, 0x00},
                                                               {0x0D, 0x81},
                                                               {0x04, 0x77},
                                                               {0x10, 0x90},
                                                               {0x0E, 0xFF},
                                                               {0x2F, 0x00},
                                                               {0x32, 0xAA},
                                                               {0x06, 0x01},
                                                               {0x14, 0x00}})
    walk.take(with_bytes(at_64_image(), {{at, value}}));
  const Image once = at_64_image();
  for (const auto& other :
       {with_bytes(once, {{0x20, 0x01}}),
        with_bytes(once, {{0x20, 0x01}, {0x21, 0x01}, {0x22, 0x01}, {0x23, 0x01}}),
        with_bytes(once, {{0x20, 0x01}, {0x21, 0x02}, {0x22, 0x04}, {0x23, 0x08}})})
    walk.take(compare_reads(once, {other}));
  return walk;
}

}  // namespace

TEST_CASE("every finding that sends a hand to hardware says first to switch off") {
  const Walk walk = walk_findings();
  // Those whose advice cannot be followed without a hand on the chip, its cell or its reader.
  const std::set<std::string> by_hand{
      "dump-all-ff",        "dump-all-00",    "dump-one-value",   "address-line-stuck",
      "halves-mirrored",    "bits-reversed",  "data-bit-stuck",   "data-bit-absent",
      "unstable-reads",     "cell-flat",      "ram-cleared",      "part-too-small",
      "part-century-clash", "part-ram-clear", "part-ram-cleared", "part-trickle-charger"};
  for (const std::string& id : by_hand) {
    INFO(id);
    if (id != "data-bit-absent" && id != "part-century-clash") CHECK(walk.seen.contains(id));
    CHECK((!walk.seen.contains(id) || walk.careful.contains(id)));
  }
}

TEST_CASE("every code whose remedy lies in the machine says first to switch off") {
  std::size_t careful = 0;
  for (const PostCode& code : post_codes()) {
    check_advice(code.remedy, code.code);
    careful += points_to_cautions(code.remedy);
  }
  CHECK(careful == 19);
  CHECK(points_to_cautions(post_code("161")->remedy));
  CHECK_FALSE(points_to_cautions(post_code("162")->remedy));
}

TEST_CASE("every verdict on a chip that did not hold says first to switch off") {
  const Layout& layout = built_in_layout("at");
  const auto judged = [&](const Image& found, std::optional<Image> again = std::nullopt) {
    return retention({at_64_image(), found, std::move(again), 1800}, layout);
  };
  Image many = at_64_image();
  for (Address at = 0x14; at < 0x28; ++at) many.set(at, static_cast<std::uint8_t>(many[at] ^ 0x10));
  const Image later = with_bytes(at_64_image(), {{0x04, 0x10}, {0x02, 0x05}});
  Image cleared = later, zeros = later;
  for (std::size_t i = Image::ram_start; i < cleared.size(); ++i) {
    cleared.set(static_cast<Address>(i), 0xFF);
    zeros.set(static_cast<Address>(i), 0x00);
  }
  const std::vector<Retention> bad{
      judged(zeros), judged(cleared),       judged(with_bytes(later, {{0x15, 0x00}})),
      judged(many),  judged(at_64_image()), judged(later, with_bytes(later, {{0x20, 0x01}}))};
  const std::vector<Retained> kinds{Retained::nothing,         Retained::cleared,
                                    Retained::a_few_bits_lost, Retained::much_lost,
                                    Retained::clock_lost,      Retained::changes_by_read};
  for (std::size_t i = 0; i < bad.size(); ++i) {
    INFO(bad[i].text);
    CHECK(bad[i].what == kinds[i]);
    CHECK(points_to_cautions(bad[i].next));
  }
  check_advice(judged(later).next, "kept");
}

TEST_CASE("every step of every plan that needs a hand points to the cautions") {
  std::size_t careful = 0;
  const auto take = [&](const CellPlan& plan) {
    for (const WorkStep& step : plan.steps) {
      check_advice(step.text, step.title);
      careful += points_to_cautions(step.text);
    }
    CHECK(plan.cautions.size() == bench_cautions().size());
  };
  take(usual_plan({2031, 5, 14, 0, 0, 0}));
  for (const Part& part : known_parts()) take(usual_plan({2031, 5, 14, 0, 0, 0}, part));
  CHECK(careful > 50);
}

TEST_CASE("every status of the bench board that sends a hand to the chip points to the cautions") {
  std::size_t careful = 0;
  for (int status = BOARD_BAD_FRAME; status <= BOARD_NO_EDGE; ++status) {
    const Error error = status_error(static_cast<std::uint8_t>(status), {0x10, 0x02, 0x00});
    check_advice(error.advice(), error.message());
    careful += points_to_cautions(error.advice());
  }
  CHECK(careful == 9);
  const rtcmend::test::Workbench bench;
  const auto wiring = bench.run({"board", "wiring"});
  CHECK(wiring.out.starts_with("Cautions\n"));
  for (const Caution& caution : bench_cautions())
    CHECK(wiring.out.find("  " + caution.topic + ": ") != std::string::npos);
}

TEST_CASE("no step measures inside a running machine") {
  static const std::regex live("machine on|power(ed)? on|switched on|under power");
  for (const Part& part : known_parts())
    for (const bool rechargeable : {false, true})
      for (const WorkStep& step : rework_steps(part, rechargeable)) {
        INFO(part.name << ": " << in_plain_words(step.text));
        CHECK_FALSE(std::regex_search(in_plain_words(step.text), live));
      }
}

TEST_CASE("every step and caution of every way in and out that needs a hand says to switch off") {
  Parcel parcel;
  parcel.image = at_64_image();
  std::size_t careful = 0;
  const auto take = [&](const std::vector<Advice>& all, Way way) {
    for (const Advice& advice : all) {
      check_advice(advice, std::string(name(way)));
      careful += points_to_cautions(advice);
    }
  };
  for (const Way way : all_ways()) {
    for (const Occasion occasion : {Occasion::once, Occasion::when_lost}) {
      parcel.occasion = occasion;
      take(delivery_steps(parcel, way, 0), way);
      take(delivery_cautions(parcel, way), way);
    }
    take(capture_steps(way), way);
    take(capture_cautions(way), way);
  }
  CHECK(careful >= 11);
}

TEST_CASE("the old machine's screens are read while it is on, and say to switch off") {
  static const std::regex fault(
      "socket|jumper|crystal|flat or missing|data lines|do(es)? not hold");
  const std::filesystem::path folder =
      std::filesystem::path(RTCMEND_SOURCE_DIR) / "src" / "deliver" / "asm";
  std::size_t screens = 0;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    const std::string text = read_whole(entry.path().string());
    bool owed = false;
    for (const std::string_view line : lines(text)) {
      const std::string code(line.substr(0, line.find(';')));
      static const std::regex said("say +\"([^\"]*)\"");
      std::smatch words;
      if (std::regex_search(code, words, said) && std::regex_search(words[1].str(), fault)) {
        owed = true;
        ++screens;
      }
      if (code.find("for_hands], 1") != std::string::npos ||
          code.find("call    say_hands") != std::string::npos)
        owed = false;
      INFO(entry.path().filename() << ": " << code);
      if (code.find("        ret") == 0) CHECK_FALSE(owed);
    }
  }
  CHECK(screens >= 5);
  const std::string report = read_whole((folder / "report.inc").string());
  CHECK(report.find("First switch off, unplug and wait some minutes; mind the") !=
        std::string::npos);
  CHECK(
      std::string(hands_line()).find("First switch off, unplug and wait some minutes; mind the") ==
      0);
}

TEST_CASE("the cautions alone are printed, and stand in one place in the sources") {
  const rtcmend::test::Workbench bench;
  const auto ran = bench.run({"plan", "--cautions"});
  CHECK(ran.code == 0);
  for (const Caution& caution : bench_cautions())
    CHECK(ran.out.find("  " + caution.topic + " ") != std::string::npos);
  CHECK(bench.run({"plan", "--cautions", "--json"}).code == 2);
  std::set<std::string> files;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(
           std::filesystem::path(RTCMEND_SOURCE_DIR) / "src"))
    if (entry.is_regular_file() &&
        read_whole(entry.path().string()).find("medical emergency") != std::string::npos)
      files.insert(entry.path().filename().string());
  CHECK(files == std::set<std::string>{"cautions.cpp"});
}
