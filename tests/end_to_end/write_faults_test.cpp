// Every call by which a command writes a file is made to fail in turn, by a library that is loaded
// before the program (tests/faults/). What must hold is common practice for programs that keep
// other people's work: the old file or the new one, never anything between.
#include <catch2/catch.hpp>
#include <filesystem>
#include <sstream>

#include "support/sound_images.h"
#include "workbench.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

using Words = std::vector<std::string>;
using Settings = std::vector<std::pair<std::string, std::string>>;

constexpr const char* old_content = "what was there before\n";

/// Every command that writes one file, `out` here.
const std::vector<Words> writers = {
    {"seal", "in.bin", "--to", "hex", "-o", "out"},
    {"amend", "in.bin", "--set", "floppy_b=360K", "--to", "rows", "-o", "out"},
    {"convert", "in.bin", "--to", "json", "-o", "out"},
    {"compose", "machine.json", "--to", "raw", "-o", "out"},
    {"deliver", "in.bin", "--as", "boot-floppy", "-o", "out"},
    {"capture", "--as", "dos-program", "-o", "out"},
    {"trace", "session.json", "-o", "out"},
    {"sheet", "in.bin", "-o", "out"},
};

void lay_out(const Workbench& bench) {
  bench.put("in.bin", at_64_bytes());
  bench.put("machine.json", R"({"layout": "at-64", "clock": "2031-05-14T09:30:00"})");
  auto second_floppy = at_64_bytes();
  second_floppy[0x10] = 0x44;
  second_floppy[0x2F] = 0x6B;
  bench.put("changed.bin", second_floppy);
  bench.put("session.json", R"({"steps": [
      {"dump": "in.bin"}, {"dump": "in.bin"},
      {"label": "second floppy", "value": "none", "dump": "in.bin"},
      {"label": "second floppy", "value": "1.44M", "dump": "changed.bin"}]})");
}

/// A folder with the inputs, and an old `out` where the command is told to replace it.
class Scene {
 public:
  Scene(Words words, bool replaces) : words_(std::move(words)), replaces_(replaces) {
    if (replaces_) words_.push_back("--force");
    lay_out(bench_);
    if (replaces_) bench_.put("out", old_content);
    before_ = bench_.files();
  }

  Ran run(Settings settings) const {
    Start start;
    start.program = RTCMEND_PRELOADABLE;
    start.folder = bench_.path(".");
    start.arguments = words_;
    start.environment = std::move(settings);
    start.environment.emplace_back("LD_PRELOAD", RTCMEND_FAULTS);
    start.environment.emplace_back("ASAN_OPTIONS", "verify_asan_link_order=0");
    return run_program(start);
  }
  bool as_it_was() const {
    return bench_.files() == before_ && bench_.has("out") == replaces_ &&
           (!replaces_ || bench_.get("out") == old_content);
  }
  bool whole(const std::string& wanted) const {
    return bench_.files() == before_ + (replaces_ ? 0 : 1) && bench_.get("out") == wanted;
  }
  const Workbench& bench() const { return bench_; }

 private:
  Words words_;
  bool replaces_;
  Workbench bench_;
  std::size_t before_ = 0;
};

/// The calls of an undisturbed run, in order, and what it wrote.
struct Plain {
  std::vector<std::string> calls;
  std::string written;
};

Plain plain_run(const Words& words, bool replaces, const Settings& settings) {
  const Scene scene(words, replaces);
  const Workbench aside;
  Settings logged = settings;
  logged.emplace_back("FAULT_LOG", aside.path("log"));
  const Ran ran = scene.run(logged);
  INFO(ran.err);
  REQUIRE(ran.code <= 1);
  Plain plain;
  plain.written = scene.bench().get("out");
  std::istringstream log(aside.get("log"));
  for (std::string call; std::getline(log, call);) plain.calls.push_back(call);
  return plain;
}

void fail_each_call(const Words& words, bool replaces, const Settings& settings) {
  const Plain plain = plain_run(words, replaces, settings);
  REQUIRE(plain.calls.size() >= 6);  // open, write, flush, name, close, flush of the folder
  for (std::size_t at = 1; at <= plain.calls.size(); ++at) {
    for (const char* how : {"eio", "enospc"}) {
      INFO(words[0] << (replaces ? ", replacing" : ", new") << ": call " << at << " ("
                    << plain.calls[at - 1] << ") fails with " << how);
      const Scene scene(words, replaces);
      Settings faulty = settings;
      faulty.emplace_back("FAULT_AT", std::to_string(at));
      faulty.emplace_back("FAULT_HOW", how);
      const Ran ran = scene.run(faulty);
      CHECK(ran.code == 3);
      CHECK(complains(ran, "out", ""));
      CHECK((scene.as_it_was() || scene.whole(plain.written)));
    }
  }
}

const std::vector<Settings> file_systems = {
    {}, {{"FAULT_LACKS", "nameless"}}, {{"FAULT_LACKS", "nameless links"}}};

}  // namespace

TEST_CASE("whatever call fails, the old file is intact or the new one complete") {
  for (const Words& words : writers)
    for (const bool replaces : {false, true}) fail_each_call(words, replaces, {});
}

TEST_CASE("the same holds where files need a name from the start, or know no links") {
  for (const Settings& settings : {file_systems[1], file_systems[2]})
    for (const bool replaces : {false, true}) fail_each_call(writers[0], replaces, settings);
}

TEST_CASE("a write that comes up short is finished, and one that is cut off leaves nothing") {
  for (const Words& words : writers) {
    for (const bool replaces : {false, true}) {
      INFO(words[0]);
      const Plain plain = plain_run(words, replaces, {});
      const auto write = std::find(plain.calls.begin(), plain.calls.end(), "write");
      REQUIRE(write != plain.calls.end());
      const std::string at = std::to_string(write - plain.calls.begin() + 1);
      const Scene shorter(words, replaces);
      CHECK(shorter.run({{"FAULT_AT", at}, {"FAULT_HOW", "short"}}).code <= 1);
      CHECK(shorter.whole(plain.written));
      const Scene cut(words, replaces);
      const Ran ran = cut.run({{"FAULT_AT", at}, {"FAULT_HOW", "cut"}});
      CHECK(ran.code == 3);
      CHECK(complains(ran, "out", "cannot write"));
      CHECK(cut.as_it_was());
    }
  }
}

TEST_CASE("killed at any of its calls, a program leaves no partial file") {
  for (const Words& words : writers) {
    for (const bool replaces : {false, true}) {
      const Plain plain = plain_run(words, replaces, {});
      for (std::size_t at = 1; at <= plain.calls.size(); ++at) {
        INFO(words[0] << (replaces ? ", replacing" : ", new") << ": killed at call " << at << " ("
                      << plain.calls[at - 1] << ")");
        const Scene scene(words, replaces);
        const Ran ran = scene.run({{"FAULT_AT", std::to_string(at)}, {"FAULT_HOW", "kill"}});
        CHECK(ran.code == -1);
        for (const auto& file : std::filesystem::directory_iterator(scene.bench().path("."))) {
          const std::string name = file.path().filename().string();
          if (!name.starts_with("out")) continue;
          const std::string content = scene.bench().get(name);
          CHECK((content == plain.written || (name == "out" && content == old_content)));
        }
      }
    }
  }
}

TEST_CASE("killed a thousand times at random moments, a program leaves no partial file") {
  const Plain plain = plain_run(writers[0], true, {});
  const Scene scene(writers[0], true);
  std::uint32_t random = 146818;  // any start will do: xorshift, Marsaglia 2003
  std::size_t killed = 0;
  for (int round = 0; round < 1000; ++round) {
    random ^= random << 13, random ^= random >> 17, random ^= random << 5;
    Start start;
    start.arguments = {"seal", "in.bin", "--to", "hex", "-o", "out", "--force"};
    start.killed_after = random % 8000;
    killed += scene.bench().run(std::move(start)).code == -1 ? 1 : 0;
    const std::string content = scene.bench().get("out");
    REQUIRE((content == plain.written || content == old_content));
    scene.bench().put("out", old_content);
  }
  CHECK(killed > 100);
  for (const auto& file : std::filesystem::directory_iterator(scene.bench().path(".")))
    if (file.path().filename().string().starts_with("out."))
      CHECK(scene.bench().get(file.path().filename().string()) == plain.written);
}
