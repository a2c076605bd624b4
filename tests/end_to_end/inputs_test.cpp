// What a command reads: it is never written over, whatever named it; what a file names in its text
// stays in the file's own folder; and what is no plain file is read to its end.
#include "base/inputs.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <sys/stat.h>

#include "support/sound_images.h"
#include "workbench.h"

using namespace rtcmend;
using namespace rtcmend::test;
namespace fs = std::filesystem;

namespace {

using Words = std::vector<std::string>;

const std::string part = R"({"fields": [{"id": "extra", "label": "Extra", "group": "g",
    "source": "s", "at": "36", "number": {}}]})";
const std::string mine = R"({"layout": "mine", "title": "Mine", "includes": ["part"],
    "fields": [{"id": "floppy_a", "label": "A", "group": "g", "source": "s", "at": "10",
    "bits": [7, 4], "number": {}}],
    "checks": [{"id": "sum-10-2d", "source": "s", "sum": {"width": 16}, "over": ["10-2D"],
    "stored": {"at": "2E", "order": "high-first"}}]})";
const std::string session = R"({"layout": "mine.json", "steps": [
    {"label": "a", "value": "1", "dump": "in.bin"}, {"label": "a", "value": "2", "dump": "in.bin"}]})";

struct Bench : Workbench {
  Bench() {
    put("in.bin", at_64_bytes());
    put("part.json", part);
    put("mine.json", mine);
    put("machine.json", R"({"layout": "mine.json", "clock": "2031-05-14T09:30:00",
        "set": {"floppy_a": 4}})");
    put("session.json", session);
  }
};

/// The command refuses `output`, which it reads, and leaves it as it was.
void leaves_alone(const Bench& bench, Words words, const std::string& output) {
  words.insert(words.end(), {"-o", output, "--force"});
  std::string told;
  for (const std::string& word : words) told += word + " ";
  INFO(told);
  const std::string before = bench.get(output);
  const Ran ran = bench.run(words);
  INFO(ran.err);
  CHECK(ran.code == 2);
  CHECK(complains(ran, output + ":", "an input is never written over"));
  CHECK(bench.get(output) == before);
}

/// A named pipe that nobody writes to: whoever opens it waits for ever.
void make_pipe(const Bench& bench, const std::string& name) {
  REQUIRE(::mkfifo(bench.path(name).c_str(), 0600) == 0);
}

void refuses_name(const Bench& bench, const Words& words, const std::string& file,
                  const std::string& trouble) {
  const Ran ran = bench.run(words);
  INFO(ran.err);
  CHECK(ran.code == 2);
  CHECK(complains(ran, file, trouble));
  CHECK_FALSE(bench.has("out"));
}

}  // namespace

TEST_CASE("a part that a layout includes is never written over") {
  const Bench bench;
  for (const Words& words : std::vector<Words>{
           {"amend", "in.bin", "--layout", "mine.json", "--set", "extra=1"},
           {"seal", "in.bin", "--layout", "./mine.json"},
           {"convert", "in.bin", "--layout", "mine.json", "--to", "hex"},
           {"sheet", "in.bin", "--layout", "mine.json"},
           {"page", "in.bin", "--layout", "mine.json"},
           {"compose", "machine.json"},
           {"deliver", "in.bin", "--layout", "mine.json", "--as", "dos-program"},
           {"trace", "session.json"},
           {"trace", "--step", "a=1:in.bin", "--step", "a=2:in.bin", "--into", "mine.json"}})
    leaves_alone(bench, words, "part.json");
}

TEST_CASE("the layout that a description or a session names is never written over") {
  const Bench bench;
  leaves_alone(bench, {"compose", "machine.json"}, "mine.json");
  leaves_alone(bench, {"trace", "session.json"}, "mine.json");
  leaves_alone(bench,
               {"trace", "--step", "a=1:in.bin", "--step", "a=2:in.bin", "--layout", "mine.json"},
               "mine.json");
  const std::string before = bench.get("mine.json");
  const Ran ran =
      bench.run({"compose", "machine.json", "--save", "mine.json", "-o", "new.bin", "--force"});
  CHECK(ran.code == 2);
  CHECK(bench.get("mine.json") == before);
  CHECK_FALSE(bench.has("new.bin"));
}

TEST_CASE("the file that standard input comes from is never written over") {
  const Bench bench;
  for (const std::string line : {"\"$0\" convert - --to raw -o in.bin --force < in.bin",
                                 "\"$0\" seal - --layout at -o in.bin --force < in.bin",
                                 "\"$0\" compose - -o machine.json --force < machine.json"}) {
    INFO(line);
    const Ran ran = bench.shell(line);
    CHECK(ran.code == 2);
    CHECK(ran.err.find("an input is never written over") != std::string::npos);
  }
  CHECK(bench.bytes("in.bin") == at_64_bytes());
}

TEST_CASE("a file that was read is known by itself, should its name lead elsewhere by then") {
  const Bench bench;
  Inputs inputs{bench.path("in.bin")};
  fs::rename(bench.path("in.bin"), bench.path("moved.bin"));
  CHECK(inputs.hold(bench.path("moved.bin")));
  CHECK_FALSE(inputs.hold(bench.path("mine.json")));
  CHECK_FALSE(inputs.hold(bench.path("none")));
}

TEST_CASE("a session names plain files in its own folder or below, and nothing else") {
  const Bench bench;
  fs::create_directory(bench.path("box"));
  make_pipe(bench, "box/pipe");
  fs::create_symlink("../in.bin", bench.path("box/link"));
  fs::create_symlink("/dev/zero", bench.path("box/zero"));
  for (const auto& [dump, trouble] : std::vector<std::pair<std::string, std::string>>{
           {"-", "only the command line can speak of standard input"},
           {"pipe", "which is no plain file"},
           {"/dev/zero", "which is not in its own folder or below"},
           {"../in.bin", "which is not in its own folder or below"},
           {"down/../../in.bin", "which is not in its own folder or below"},
           {bench.path("in.bin"), "which is not in its own folder or below"},
           {"link", "a link there leads elsewhere"},
           {"zero", "a link there leads elsewhere"},
           {".", "which is no plain file"},
           {"none.bin", "there is no such file"}}) {
    INFO(dump);
    bench.put("box/s.json", R"({"steps": [{"dump": ")" + dump + R"("}]})");
    refuses_name(bench, {"trace", "box/s.json"}, "box/s.json:", trouble);
  }
}

TEST_CASE("a description names a built-in layout or a plain file in its own folder or below") {
  const Bench bench;
  fs::create_directory(bench.path("box"));
  make_pipe(bench, "box/pipe");
  make_pipe(bench, "pipe.json");
  for (const auto& [layout, trouble] : std::vector<std::pair<std::string, std::string>>{
           {"-", "only the command line can speak of standard input"},
           {"pipe", "which is no plain file"},
           {"../pipe.json", "which is not in its own folder or below"},
           {"../mine.json", "which is not in its own folder or below"},
           {"/dev/zero", "which is not in its own folder or below"},
           {"at-46", "there is no such file"}}) {
    INFO(layout);
    bench.put("box/m.json", R"({"layout": ")" + layout + R"("})");
    refuses_name(bench, {"compose", "box/m.json", "-o", "out"}, "box/m.json:", trouble);
  }
  // Beside the description, wherever the program runs; and the option has its way.
  fs::copy(bench.path("mine.json"), bench.path("box/mine.json"));
  fs::copy(bench.path("part.json"), bench.path("box/part.json"));
  bench.put("box/m.json", R"({"layout": "mine.json", "clock": "2031-05-14T09:30:00"})");
  CHECK(bench.run({"compose", "box/m.json", "-o", "one.bin", "--unsound-anyway"}).code != 2);
  bench.put("box/m.json", R"({"layout": "../at.json", "clock": "2031-05-14T09:30:00"})");
  CHECK(bench.run({"compose", "box/m.json", "--layout", "at", "-o", "two.bin"}).code == 0);
}

TEST_CASE("an audit reads a slow pipe to its end, and judges no half of it") {
  const Bench bench;
  make_pipe(bench, "slow");
  std::vector<std::uint8_t> large = at_64_bytes();
  large.resize(128, 0x55);
  bench.put("large.bin", large);
  const Ran ran = bench.shell(
      "(head -c 64 large.bin; sleep 0.3; tail -c 64 large.bin) > slow & "
      "\"$0\" audit slow; \"$0\" audit large.bin > plain; wait");
  INFO(ran.out << ran.err);
  std::string plain = bench.get("plain");
  plain.replace(plain.find("large.bin"), 9, "slow");
  CHECK(ran.out == plain);
  CHECK(bench.shell("cat in.bin | \"$0\" audit /dev/stdin").out.find("sound") != std::string::npos);
}

TEST_CASE("an audit leaves an endless pipe after a mebibyte") {
  const Bench bench;
  const Ran ran = bench.shell("cat /dev/zero | \"$0\" audit /dev/stdin");
  CHECK(ran.code == 1);
  CHECK(ran.out.find("larger than 1048576 bytes") != std::string::npos);
}
