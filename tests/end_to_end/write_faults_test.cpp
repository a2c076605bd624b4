// Every call by which a command writes a file is made to fail in turn, by a library that is loaded
// before the program (tests/faults/). What must hold is common practice for programs that keep
// other people's work: the old file or the new one, never anything between.
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <map>
#include <sstream>

#include "support/sound_images.h"
#include "workbench.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

using Words = std::vector<std::string>;
using Settings = std::vector<std::pair<std::string, std::string>>;

constexpr const char* first_reading =
    "{\"shown\":\"2031-05-01T12:00:00\",\"reference\":\"2031-05-01T12:00:00\","
    "\"daylight_saving\":false,\"running\":null}\n";

/// A command that writes.
struct Writer {
  Words words;
  Words outputs = {"out"};  ///< the files that it writes
  std::string before = "what was there before\n";
  bool forced = true;  ///< it needs --force where a file is there already
  std::string answers = {};
};

/// Every command that writes.
const std::vector<Writer> writers = {
    {{"seal", "in.bin", "--to", "hex", "-o", "out"}},
    {{"amend", "in.bin", "--set", "floppy_b=360K", "--to", "rows", "-o", "out"}},
    {{"convert", "in.bin", "--to", "json", "-o", "out"}},
    {{"compose", "machine.json", "--to", "raw", "-o", "out"}},
    {{"compose", "--ask", "--layout", "at", "--clock", "2031-05-14T09:30:00", "--to", "raw", "-o",
      "out", "--save", "saved"},
     {"out", "saved"},
     "what was there before\n",
     true,
     std::string(200, '\n')},
    {{"deliver", "in.bin", "--as", "boot-floppy", "-o", "out"}},
    {{"capture", "--as", "dos-program", "-o", "out"}},
    {{"trace", "session.json", "-o", "out"}},
    {{"trace", "new", "out"}},
    {{"trace", "session.json", "--into", "draft.json", "-o", "out"}},
    {{"sheet", "in.bin", "-o", "out"}},
    {{"board", "wiring", "-o", "out"}},
    {{"page", "in.bin", "-o", "out"}},
    {{"drift", "2031-05-31T12:00:30", "--at", "2031-05-31T12:00:00", "2031-06-30T12:01:00", "--at",
      "2031-06-30T12:00:00", "--log", "out"},
     {"out"},
     first_reading,
     false},
};

/// The one for what needs a single command.
const Writer& any_writer = writers[0];

void lay_out(const Workbench& bench) {
  bench.put("in.bin", at_64_bytes());
  bench.put("machine.json", R"({"layout": "at", "clock": "2031-05-14T09:30:00"})");
  auto second_floppy = at_64_bytes();
  second_floppy[0x10] = 0x44;
  second_floppy[0x2F] = 0x6B;
  bench.put("changed.bin", second_floppy);
  bench.put("session.json", R"({"steps": [
      {"dump": "in.bin"}, {"dump": "in.bin"},
      {"label": "second floppy", "value": "none", "dump": "in.bin"},
      {"label": "second floppy", "value": "1.44M", "dump": "changed.bin"}]})");
  bench.put("draft.json", R"({"layout": "draft", "title": "A draft"})");
}

/// A folder with the inputs, and the old outputs where the command is told to replace them.
class Scene {
 public:
  Scene(const Writer& writer, bool replaces) : writer_(writer), replaces_(replaces) {
    lay_out(bench_);
    if (replaces_)
      for (const std::string& name : writer_.outputs) bench_.put(name, writer_.before);
    inputs_ = bench_.files() - (replaces_ ? writer_.outputs.size() : 0);
  }

  Words words() const {
    Words words = writer_.words;
    if (replaces_ && writer_.forced) words.push_back("--force");
    return words;
  }
  Ran run(Settings settings) const {
    Start start;
    start.program = RTCMEND_PRELOADABLE;
    start.folder = bench_.path(".");
    start.arguments = words();
    start.input = writer_.answers;
    start.environment = std::move(settings);
    start.environment.emplace_back("LD_PRELOAD", RTCMEND_FAULTS);
    start.environment.emplace_back("ASAN_OPTIONS", "verify_asan_link_order=0");
    return run_program(start);
  }
  /// Whether an output is what it was before.
  bool old(const std::string& name) const {
    return replaces_ ? bench_.has(name) && bench_.get(name) == writer_.before : !bench_.has(name);
  }
  bool whole(const std::string& name, const std::string& wanted) const {
    return bench_.has(name) && bench_.get(name) == wanted;
  }
  /// Files beside the inputs and the outputs.
  std::size_t strays() const {
    std::size_t outputs = 0;
    for (const std::string& name : writer_.outputs) outputs += bench_.has(name) ? 1 : 0;
    return bench_.files() - inputs_ - outputs;
  }
  const Workbench& bench() const { return bench_; }

 private:
  const Writer& writer_;
  bool replaces_;
  Workbench bench_;
  std::size_t inputs_ = 0;
};

/// The calls of an undisturbed run, in order, and what it wrote.
struct Plain {
  std::vector<std::string> calls;
  std::map<std::string, std::string> written;
};

Plain plain_run(const Writer& writer, bool replaces, const Settings& settings) {
  const Scene scene(writer, replaces);
  const Workbench aside;
  Settings logged = settings;
  logged.emplace_back("FAULT_LOG", aside.path("log"));
  const Ran ran = scene.run(logged);
  INFO(ran.err);
  REQUIRE(ran.code <= 1);
  Plain plain;
  for (const std::string& name : writer.outputs) plain.written[name] = scene.bench().get(name);
  std::istringstream log(aside.get("log"));
  for (std::string call; std::getline(log, call);) plain.calls.push_back(call);
  return plain;
}

std::string told(const Writer& writer, bool replaces) {
  std::string text = replaces ? "replacing:" : "new:";
  for (const std::string& word : writer.words) text += " " + word;
  return text;
}

bool names_an_output(const Ran& ran, const Writer& writer) {
  return std::any_of(writer.outputs.begin(), writer.outputs.end(),
                     [&](const std::string& name) { return complains(ran, name + ":", ""); });
}

void fail_each_call(const Writer& writer, bool replaces, const Settings& settings) {
  const Plain plain = plain_run(writer, replaces, settings);
  REQUIRE(plain.calls.size() >= 4);  // open, write, flush and close at least
  for (std::size_t at = 1; at <= plain.calls.size(); ++at) {
    for (const char* how : {"eio", "enospc"}) {
      INFO(told(writer, replaces));
      INFO("call " << at << " (" << plain.calls[at - 1] << ") fails with " << how);
      const Scene scene(writer, replaces);
      Settings faulty = settings;
      faulty.emplace_back("FAULT_AT", std::to_string(at));
      faulty.emplace_back("FAULT_HOW", how);
      const Ran ran = scene.run(faulty);
      INFO(ran.err);
      CHECK(ran.code == 3);
      CHECK(names_an_output(ran, writer));
      CHECK(scene.strays() == 0);
      for (const auto& [name, wanted] : plain.written)
        CHECK((scene.old(name) || scene.whole(name, wanted)));
    }
  }
}

const std::vector<Settings> file_systems = {
    {}, {{"FAULT_LACKS", "nameless"}}, {{"FAULT_LACKS", "nameless links"}}};

}  // namespace

TEST_CASE("whatever call fails, the old file is intact or the new one complete", "[long][count]") {
  for (const Writer& writer : writers)
    for (const bool replaces : {false, true}) fail_each_call(writer, replaces, {});
}

TEST_CASE("the same holds where files need a name from the start, or know no links",
          "[long][count]") {
  for (const Settings& settings : {file_systems[1], file_systems[2]})
    for (const bool replaces : {false, true}) fail_each_call(any_writer, replaces, settings);
}

TEST_CASE("a write that comes up short is finished, and one that is cut off leaves nothing",
          "[long]") {
  for (const Writer& writer : writers) {
    for (const bool replaces : {false, true}) {
      INFO(told(writer, replaces));
      const Plain plain = plain_run(writer, replaces, {});
      const auto write = std::find(plain.calls.begin(), plain.calls.end(), "write");
      REQUIRE(write != plain.calls.end());
      const std::string at = std::to_string(write - plain.calls.begin() + 1);
      const Scene shorter(writer, replaces);
      CHECK(shorter.run({{"FAULT_AT", at}, {"FAULT_HOW", "short"}}).code <= 1);
      const Scene cut(writer, replaces);
      const Ran ran = cut.run({{"FAULT_AT", at}, {"FAULT_HOW", "cut"}});
      CHECK(ran.code == 3);
      CHECK(names_an_output(ran, writer));
      for (const auto& [name, wanted] : plain.written) {
        CHECK(shorter.whole(name, wanted));
        CHECK(cut.old(name));
      }
      CHECK(shorter.strays() + cut.strays() == 0);
    }
  }
}

TEST_CASE("killed at any of its calls, a program leaves no partial file", "[long][count]") {
  for (const Writer& writer : writers) {
    for (const bool replaces : {false, true}) {
      const Plain plain = plain_run(writer, replaces, {});
      for (std::size_t at = 1; at <= plain.calls.size(); ++at) {
        INFO(told(writer, replaces));
        INFO("killed at call " << at << " (" << plain.calls[at - 1] << ")");
        const Scene scene(writer, replaces);
        const Ran ran = scene.run({{"FAULT_AT", std::to_string(at)}, {"FAULT_HOW", "kill"}});
        CHECK(ran.code == -1);
        for (const auto& [name, wanted] : plain.written) {
          CHECK((scene.old(name) || scene.whole(name, wanted)));
          // Between naming and moving, a whole copy stands beside.
          for (const auto& file : std::filesystem::directory_iterator(scene.bench().path("."))) {
            const std::string beside = file.path().filename().string();
            if (beside.starts_with(name + ".")) CHECK(scene.bench().get(beside) == wanted);
          }
        }
      }
    }
  }
}

TEST_CASE("killed a thousand times at random moments, a program leaves no partial file",
          "[long][count]") {
  const std::string wanted = plain_run(any_writer, true, {}).written.at("out");
  const Scene scene(any_writer, true);
  std::uint32_t random = 146818;  // any start will do: xorshift, Marsaglia 2003
  std::size_t killed = 0;
  for (int round = 0; round < 1000; ++round) {
    random ^= random << 13, random ^= random >> 17, random ^= random << 5;
    Start start;
    start.arguments = scene.words();
    start.killed_after = random % 8000;
    killed += scene.bench().run(std::move(start)).code == -1 ? 1 : 0;
    REQUIRE((scene.old("out") || scene.whole("out", wanted)));
    scene.bench().put("out", any_writer.before);
  }
  CHECK(killed > 100);
  for (const auto& file : std::filesystem::directory_iterator(scene.bench().path(".")))
    if (file.path().filename().string().starts_with("out."))
      CHECK(scene.bench().get(file.path().filename().string()) == wanted);
}
