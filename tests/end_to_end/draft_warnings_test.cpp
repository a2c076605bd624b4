// Whoever writes an image of a draft is told what nobody has seen of the machine, whichever way the
// bytes leave.
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>

#include "end_to_end/workbench.h"
#include "page/image_text.h"
#include "page/workbench.h"
#include "render/json.h"

using namespace rtcmend;
using namespace rtcmend::test;
using Bench = rtcmend::test::Workbench;

namespace {

using Words = std::vector<std::string>;

struct WayOut {
  const char* name;
  Words words;
  const char* told_in;  ///< of its JSON; empty = in the file that it writes, for hands to follow
};

const Words layout = {"--layout", "draft.json"};
const Words ways = {"boot-floppy", "dos-program", "debugger-script", "basic-listing",
                    "keyboard-program"};

std::vector<WayOut> ways_out() {
  std::vector<WayOut> all = {
      {"amend", {"amend", "dump00.bin", "--set", "floppy_b=1.44M"}, "notes"},
      {"a byte amended", {"amend", "dump00.bin", "--byte", "11=22"}, "notes"},
      {"seal", {"seal", "dump00.bin"}, "notes"},
      {"compose", {"compose", "machine.json"}, "notes"},
      {"convert", {"convert", "dump00.bin", "--to", "intel-hex"}, "notes"},
      {"sheet", {"sheet", "dump00.bin"}, ""}};
  for (const std::string& way : ways)
    all.push_back({way.c_str(), {"deliver", "dump00.bin", "--as", way}, "cautions"});
  return all;
}

/// The example of an unknown machine, with the draft that its session gives.
struct DraftBench : Bench {
  DraftBench() {
    std::filesystem::copy(std::string(RTCMEND_SOURCE_DIR) + "/examples/unknown", path(""),
                          std::filesystem::copy_options::recursive);
    put("machine.json", R"({"layout": "draft.json", "clock": "2031-05-14T09:30:00"})");
    warnings = Json::parse(get("draft.json"))["when_writing"].get<Words>();
  }
  Ran write(const WayOut& way, const std::string& output, const Words& more) const {
    Words words = way.words;
    words.insert(words.end(), layout.begin(), layout.end());
    words.insert(words.end(), {"-o", output});
    words.insert(words.end(), more.begin(), more.end());
    return run(words);
  }
  Words warnings;
};

/// However the lines were folded.
std::string in_one_line(const std::string& text) {
  std::string line;
  for (const char c : text)
    if (c != ' ' && c != '\n')
      line += c;
    else if (!line.empty() && line.back() != ' ')
      line += ' ';
  return line;
}

bool says(const std::string& text, const std::string& warning) {
  return in_one_line(text).find(warning) != std::string::npos;
}

}  // namespace

TEST_CASE("every way out of the program says what a draft does not know of its machine") {
  const DraftBench bench;
  REQUIRE(bench.warnings.size() >= 2);
  CHECK(bench.warnings[0].find("This layout is a draft.") == 0);
  for (const WayOut& way : ways_out()) {
    const std::string in_file = std::string("out-") + way.name;
    const Ran text = bench.write(way, in_file + ".text", {});
    INFO(way.name << "\n" << text.out << text.err);
    REQUIRE(text.code <= 1);
    const bool by_hand = std::string(way.told_in).empty();
    const std::string told = by_hand ? bench.get(in_file + ".text") : text.out;
    for (const std::string& warning : bench.warnings) CHECK(says(told, warning));
    if (by_hand) continue;
    const Ran json = bench.write(way, in_file + ".json", {"--json"});
    const Json list = Json::parse(json.out)[way.told_in];
    for (const std::string& warning : bench.warnings)
      CHECK(std::count(list.begin(), list.end(), Json(warning)) == 1);
    // Where the image itself goes to standard output, they are told aside.
    const Ran aside = bench.write(way, "-", {});
    for (const std::string& warning : bench.warnings) CHECK(says(aside.err, warning));
  }
}

TEST_CASE("the page tells with an image what a draft does not know of its machine") {
  const DraftBench bench;
  rtcmend::Workbench page;
  const auto call = [&](const Json& request) { return Json::parse(page.call(request.dump())); };
  REQUIRE(call({{"do", "read-layout"},
                {"name", "draft.json"},
                {"content", hex_text(bench.get("draft.json"))}})["ok"] == true);
  const Json look =
      call({{"do", "look"}, {"image", hex_text(bench.get("dump00.bin"))}, {"layout", "draft"}});
  INFO(look.dump());
  CHECK(look["layout"]["whenWriting"] == Json(bench.warnings));
}
