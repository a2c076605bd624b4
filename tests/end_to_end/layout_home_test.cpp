#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "support/sound_images.h"
#include "workbench.h"

using namespace rtcmend;
using namespace rtcmend::test;

using Words = std::vector<std::string>;

namespace {

/// A board whose one check no built-in layout has: a 16-bit sum of 10h to 2Fh at 30h.
const std::string board = R"({"layout": "fern-board", "title": "The board in Fern",
  "fields": [{"id": "lamp", "label": "Lamp", "group": "lamps", "at": "10", "flag": {}, "bits": [0, 0],
              "source": "invented"}],
  "checks": [{"id": "sum-10-2f", "sum": {"width": 16}, "over": ["10-2F"],
              "stored": {"at": "30", "order": "high-first"},
              "source": "invented"}]})";

/// A dump of it: 10h to 2Fh hold 1 to 32, whose sum is 528 = 210h, so 30h and 31h hold 02 and 10.
std::vector<std::uint8_t> board_dump() {
  auto bytes = at_64_bytes();
  for (std::size_t at = 0x10; at < bytes.size(); ++at) bytes[at] = 0;
  for (std::size_t at = 0x10; at < 0x30; ++at) bytes[at] = static_cast<std::uint8_t>(at - 0x0F);
  bytes[0x30] = 0x02, bytes[0x31] = 0x10;
  return bytes;
}

struct Bench : Workbench {
  Bench() {
    put("board.json", board);
    put("in.bin", board_dump());
  }
  void add() const {
    const Ran ran = run({"layouts", "add", "board.json"});
    INFO(ran.err);
    REQUIRE(ran.code == 0);
  }
};

bool says(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("a layout that was added is known to every command by its id") {
  const Bench bench;
  CHECK_FALSE(says(bench.run({"identify", "in.bin"}).out, "fern-board"));
  CHECK(bench.run({"verify", "in.bin", "--layout", "fern-board"}).code == 2);
  bench.add();
  CHECK(says(bench.run({"identify", "in.bin"}).out, "The layout is fern-board."));
  for (const Words& words : std::vector<Words>{
           {"show", "in.bin"},
           {"verify", "in.bin"},
           {"amend", "in.bin", "--set", "lamp=no", "-o", "amended.bin"},
           {"seal", "in.bin", "-o", "sealed.bin"},
           {"convert", "in.bin", "--to", "json", "--layout", "fern-board", "-o", "in.json"},
           {"show", "in.json"},
           {"compare", "in.bin", "in.json"},
           {"forecast", "in.bin"},
           {"explain", "161", "--dump", "in.bin"},
           {"deliver", "in.bin", "--as", "dos-program", "-o", "mend.com"},
           {"sheet", "in.bin", "-o", "sheet.html"},
           {"audit", "in.bin"},
           {"layouts", "print", "fern-board"},
           {"layouts", "list"}}) {
    const Ran ran = bench.run(words);
    INFO(words[0] << "\n" << ran.out << ran.err);
    CHECK(ran.code == 0);
    if (words[0] != "sheet") CHECK(says(ran.out, words[0] == "convert" ? "Wrote" : "fern-board"));
  }
  CHECK(says(bench.get("sheet.html"), "The board in Fern"));
  CHECK(bench.bytes("amended.bin")[0x10] == 0);
  CHECK(bench.bytes("amended.bin")[0x31] == 0x0F);
  CHECK(says(bench.run({"__complete", "amend", "in.bin", "--set", "la"}).out, "lamp"));
  CHECK(says(bench.run({"__complete", "show", "in.bin", "--layout", "fern"}).out, "fern-board"));
}

TEST_CASE("a layout that was taken away is known no more") {
  const Bench bench;
  bench.add();
  const Ran gone = bench.run({"layouts", "remove", "fern-board"});
  CHECK(gone.code == 0);
  CHECK(says(gone.out, "fern-board.json"));
  CHECK_FALSE(says(bench.run({"identify", "in.bin"}).out, "fern-board"));
  CHECK(bench.get("board.json") == board);
  const Ran again = bench.run({"layouts", "remove", "fern-board"});
  CHECK(again.code == 2);
  CHECK(complains(again, "fern-board", "no layout of your own"));
}

TEST_CASE("nothing that is there is replaced unasked, and nothing built in is hidden") {
  const Bench bench;
  bench.add();
  CHECK(complains(bench.run({"layouts", "add", "board.json"}), "", "a layout of this id is there"));
  CHECK(bench.run({"layouts", "add", "board.json", "--force"}).code == 0);
  CHECK(bench.run({"layouts", "add", "board.json", "--as", "hazel-board"}).code == 0);
  CHECK(says(bench.run({"layouts", "list"}).out, "hazel-board"));
  for (const char* taken : {"at", "at+sum-40-7d", "chip"}) {
    const Ran ran = bench.run({"layouts", "add", "board.json", "--as", taken});
    INFO(taken << ran.err);
    CHECK(ran.code == 2);
  }
  CHECK(bench.run({"layouts", "add", "board.json", "--as", "../away"}).code == 2);
  CHECK(bench.run({"layouts", "add", "missing.json"}).code == 2);
  bench.put("broken.json", "{\"layout\": \"x\"");
  CHECK(bench.run({"layouts", "add", "broken.json"}).code == 2);
  CHECK(bench.run({"show", "in.bin", "--layout", "at"}).out.find("AT class") != std::string::npos);
}

TEST_CASE("a layout that needs another file is not added without it") {
  const Bench bench;
  bench.put(
      "part.json",
      R"({"fields": [{"id": "two", "label": "Two", "group": "lamps", "at": "12", "number": {}, "source": "invented"}]})");
  bench.put(
      "whole.json",
      R"({"layout": "whole", "title": "Whole", "includes": ["part"], "fields": [], "checks": []})");
  const Ran ran = bench.run({"layouts", "add", "whole.json"});
  CHECK(complains(ran, "whole.json", "part.json, which would not come along"));
  CHECK_FALSE(bench.has("own-layouts"));
}

TEST_CASE("what lies in the folder and is no good is named, and hurts nothing") {
  const Bench bench;
  bench.add();
  REQUIRE(
      bench
          .shell("cd own-layouts && echo '{' > broken.json && cp fern-board.json twice.json && "
                 "mkfifo pipe.json && ln -s loop.json loop.json && ln -s /dev/zero zero.json && "
                 "mkdir folder.json && head -c 3000000 /dev/zero > huge.json && "
                 "sed 's/fern-board/at/' fern-board.json > at.json && "
                 "echo '{' > \"$(printf 'odd\\033[31m.json')\" && echo hello > notes.txt && "
                 "head -c 200000 /dev/zero | tr '\\0' '[' > deep.json")
          .code == 0);
  const Ran ran = bench.run({"verify", "in.bin"});
  CHECK(ran.code == 0);
  CHECK(says(ran.out, "fern-board"));
  for (const char* file :
       {"broken.json", "twice.json", "huge.json", "at.json", "deep.json", "odd"}) {
    INFO(file << "\n" << ran.err);
    CHECK(says(ran.err, file));
  }
  CHECK_FALSE(says(ran.err, "\033"));
  CHECK_FALSE(says(ran.err, "notes.txt"));
  CHECK(says(bench.run({"show", "in.bin", "--layout", "at"}).out, "AT class"));
}

TEST_CASE("a folder of thousands ends nothing") {
  const Bench bench;
  REQUIRE(bench
              .shell("mkdir own-layouts && cd own-layouts && for i in $(seq 1 300); do sed "
                     "\"s/fern-board/board-$i/\" ../board.json > board-$i.json; done")
              .code == 0);
  const Ran ran = bench.run({"layouts", "list"});
  CHECK(ran.code == 0);
  CHECK(says(ran.out, "board-100"));
  CHECK(says(ran.err, "300 layouts"));
}

TEST_CASE("without any home folder every command works, and add says what it lacks") {
  const Bench bench;
  const std::string bare = "env -u RTCMEND_LAYOUTS -u HOME -u XDG_DATA_HOME -u APPDATA \"$0\" ";
  CHECK(bench.shell(bare + "show in.bin --layout chip").code <= 1);
  const Ran ran = bench.shell(bare + "layouts add board.json");
  CHECK(ran.code == 2);
  CHECK(says(ran.err, "RTCMEND_LAYOUTS"));
  CHECK(
      bench.shell("env -u RTCMEND_LAYOUTS XDG_DATA_HOME=data \"$0\" layouts add board.json").code ==
      0);
  CHECK(bench.has("data/rtcmend/layouts/fern-board.json"));
}

TEST_CASE("what dumps say for a layout is told, and goes into its notes as counts alone") {
  const Bench bench;
  auto other = board_dump();
  other[0x10] = 0x00, other[0x31] = 0x0F;
  bench.put("other.bin", other);
  const Ran ran = bench.run(
      {"layouts", "check", "board.json", "--with", "in.bin", "other.bin", "-o", "proven.json"});
  INFO(ran.out << ran.err);
  CHECK(ran.code == 0);
  CHECK(says(ran.out, "sum-10-2f  holds in 2 of 2"));
  CHECK(says(ran.out, "lamp       2 values seen"));
  CHECK(bench.get("board.json") == board);
  const auto notes = nlohmann::json::parse(bench.get("proven.json"))["notes"];
  REQUIRE(notes.size() == 1);
  CHECK(says(notes[0], "Held against 2 dumps (2 different) on 20"));
  CHECK(says(bench.run({"layouts", "add", "proven.json"}).out, "Held against 2 dumps"));
}

TEST_CASE("a dump that speaks against a layout is counted, and the exit code says so") {
  const Bench bench;
  auto other = board_dump();
  other[0x20] ^= 1;
  bench.put("other.bin", other);
  const Ran ran = bench.run({"layouts", "check", "board.json", "--with", "in.bin", "other.bin"});
  CHECK(ran.code == 1);
  CHECK(says(ran.out, "holds in 1, and NOT in 1"));
  CHECK(bench.run({"layouts", "check", "board.json", "in.bin"}).code == 2);
  CHECK(bench.run({"layouts", "check", "board.json", "-o", "x.json"}).code == 2);
  CHECK(bench.run({"layouts", "check", "board.json", "--with", "in.bin", "-o", "in.bin", "--force"})
            .code == 2);
  CHECK(bench
            .run({"layouts", "check", "board.json", "--with", "in.bin", "-o", "board.json",
                  "--force"})
            .code == 2);
  CHECK(bench.get("board.json") == board);
}
