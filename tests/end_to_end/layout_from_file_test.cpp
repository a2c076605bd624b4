// A layout that comes from a file judges by the word of whoever wrote it: every command that uses
// one says so, in words and in JSON.
#include <catch2/catch.hpp>
#include <set>

#include "cli/commands.h"
#include "end_to_end/workbench.h"
#include "render/json.h"
#include "support/sound_images.h"

using namespace rtcmend;
using namespace rtcmend::test;
using Bench = rtcmend::test::Workbench;

namespace {

constexpr const char* mine = R"({"layout": "mine", "title": "The board in the shed", "of": "at"})";

/// A layout that stands in for `mine` without a file behind it.
constexpr const char* built_in = "at";

struct Row {
  std::vector<std::string> words;  ///< L where the layout goes
  bool json = true;                ///< its JSON says it, too
};

/// Every command that takes a layout, as a user would start it.
const std::vector<Row> rows = {
    {{"show", "in.bin", "--layout", "L"}},
    {{"verify", "in.bin", "--layout", "L"}},
    {{"amend", "in.bin", "--layout", "L", "--clock", "2031-06-01T12:00:00", "-o", "OUT"}},
    {{"seal", "in.bin", "--layout", "L", "-o", "OUT"}},
    {{"compose", "machine.json", "--layout", "L", "-o", "OUT"}},
    {{"convert", "in.bin", "--layout", "L", "--to", "json", "-o", "OUT"}, false},
    {{"compare", "in.bin", "in.bin", "--layout", "L"}},
    {{"forecast", "in.bin", "--layout", "L"}},
    {{"explain", "161", "--dump", "in.bin", "--layout", "L"}},
    {{"deliver", "in.bin", "--as", "dos-program", "--layout", "L", "-o", "OUT"}},
    {{"page", "in.bin", "--layout", "L", "-o", "OUT"}, false},
    {{"audit", "in.bin", "--layout", "L"}},
    {{"history", "dumps", "--layout", "L"}},
    {{"drives", "--type", "2", "--layout", "L"}, false},
    {{"drift", "in.bin", "later.bin", "--at", "2031-05-14T09:30:00", "--at", "2031-06-14T09:30:00",
      "--layout", "L"},
     false},
    {{"trace", "--step", "month=5:in.bin", "--step", "month=6:later.bin", "--layout", "L"}, false},
};

class Machine {
 public:
  Machine() {
    bench_.put("mine.json", mine);
    bench_.put("in.bin", at_64_bytes());
    auto later = at_64_bytes();
    later[0x08] = later[0x08] == 0x06 ? 0x07 : 0x06;
    bench_.put("later.bin", later);
    bench_.put("machine.json", R"({"size": 64, "clock": "2031-05-14T09:30:00", "set": {}})");
    bench_.shell("mkdir dumps; cp in.bin dumps/2031-05-14.bin");
  }

  Ran run(const Row& row, const std::string& layout, std::vector<std::string> more = {}) {
    std::vector<std::string> words = row.words;
    for (std::string& word : words) {
      if (word == "L") word = layout;
      if (word == "OUT") word = "out-" + std::to_string(++outputs_);
    }
    words.insert(words.end(), more.begin(), more.end());
    return bench_.run(words);
  }
  const Bench& bench() const { return bench_; }

 private:
  Bench bench_;
  int outputs_ = 0;
};

/// Folded lines put together again.
std::string unfolded(const std::string& text) {
  std::string plain;
  for (const char c : text) {
    const bool blank = c == '\n' || c == ' ';
    if (!blank || !plain.ends_with(' ')) plain += blank ? ' ' : c;
  }
  return plain;
}

/// The first object of JSON that says whose layout it was; what an audit says stands in its last.
Json layout_file_in(const std::string& out) {
  const std::size_t last = out.rfind("{\"summary\"");
  const Json json = Json::parse(last == std::string::npos ? out : out.substr(last));
  const Json& object = json.contains("summary") ? json["summary"] : json;
  return object.contains("layout_file") ? object["layout_file"] : Json("no such key");
}

}  // namespace

TEST_CASE("every command that judges by a layout from a file says so, and from which") {
  Machine machine;
  for (const Row& row : rows) {
    INFO(row.words.front());
    const Ran own = machine.run(row, "mine.json"), known = machine.run(row, built_in);
    INFO(own.out + own.err);
    CHECK(own.code <= 1);
    CHECK(unfolded(own.out).find("(from mine.json, not built in)") != std::string::npos);
    CHECK(known.code <= 1);
    CHECK(known.out.find("not built in") == std::string::npos);
    if (!row.json) continue;
    CHECK(layout_file_in(machine.run(row, "mine.json", {"--json"}).out) == "mine.json");
    CHECK(layout_file_in(machine.run(row, built_in, {"--json"}).out).is_null());
  }
}

TEST_CASE("a sheet and a table say it as well") {
  Machine machine;
  machine.run({{"sheet", "in.bin", "--layout", "L", "-o", "sheet.html"}}, "mine.json");
  CHECK(machine.bench().get("sheet.html").find("(from mine.json, not built in)") !=
        std::string::npos);
  const Ran table =
      machine.run({{"audit", "in.bin", "--layout", "L", "--table", "csv"}}, "mine.json");
  CHECK(table.out.find("\"mine (from mine.json, not built in)\"") != std::string::npos);
}

TEST_CASE("no command that takes a layout is left out") {
  std::set<std::string> told{"sheet", "layouts", "board"};  // above, about them, needs a board
  for (const Row& row : rows) told.insert(row.words.front());
  for (const Command& command : commands()) {
    Options options(std::string(command.name), std::string(command.summary));
    command.set_up(options);
    for (const Declared& declared : options.declared())
      for (const std::string& name : declared.names)
        if (name == "--layout") {
          INFO(command.name);
          CHECK(told.contains(std::string(command.name)));
        }
  }
}

TEST_CASE(
    "identify knows the built-in layouts alone, and what is explained without a dump has none") {
  const Machine machine;
  CHECK(machine.bench().run({"identify", "in.bin", "--layout", "mine.json"}).code == 2);
  const Json found = Json::parse(machine.bench().run({"identify", "in.bin", "--json"}).out);
  CHECK(found["layout"] == "at");
  const Json told = Json::parse(machine.bench().run({"explain", "161", "--json"}).out);
  CHECK(told["layout"].is_null());
  CHECK(told["layout_file"].is_null());
}
