// What strangers can lay in the way of a user: names, links, pipes, locks, characters without ink.
#include <catch2/catch.hpp>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <sys/stat.h>
#include <unistd.h>

#include "base/text.h"
#include "support/sound_images.h"
#include "workbench.h"

using namespace rtcmend;
using namespace rtcmend::test;
namespace fs = std::filesystem;

namespace {

/// The command that a text suggests in quotation marks, up to READBACK.
std::string suggested(const std::string& text) {
  const auto from = text.find("\"rtcmend compare ");
  return text.substr(from + 1, text.find(" READBACK", from) - from - 1);
}

}  // namespace

TEST_CASE("a suggested command, copied into a shell, means the file and nothing else") {
  const Workbench bench;
  bench.put("in.bin", at_64_bytes());
  for (const std::string name :
       {"my  new dump.bin", "$(touch tripped).bin", "`touch tripped`.bin", "a;touch tripped;.bin",
        "it's.bin", "-x.bin", "\x1B[31mred.bin", "a\nb.bin", "*.bin"}) {
    INFO(printable(name));
    const std::string named = name[0] == '-' ? "./" + name : name;
    const Ran ran = bench.run({"amend", "in.bin", "--set", "floppy_b=720K", "-o", named});
    REQUIRE(ran.code == 0);
    std::string command = suggested(ran.out) + " in.bin";
    command.replace(0, 7, "\"$0\"");
    INFO(command);
    bench.put("line.sh", command);
    const Ran copied = bench.shell("bash -c \"$(cat line.sh)\" \"$0\" 2>&1");
    CHECK(copied.out.find("bytes that matter") != std::string::npos);
    CHECK_FALSE(bench.has("tripped"));
    fs::remove(bench.path(name));
  }
}

TEST_CASE("a layout from a file is marked as such where it judges, and a built-in one is not") {
  const Workbench bench;
  bench.put("in.bin", at_64_bytes());
  bench.put("mine.json", std::string(R"({"layout": "mine", "title": "Mine", "checks": [
      {"id": "sum-10-2d", "source": "s", "sum": {"width": 16}, "over": ["10-2D"],
       "stored": {"at": "2E", "order": "high-first"}}]})"));
  const auto said = [&](std::vector<std::string> words, const char* layout) {
    words.insert(words.end(), {"--layout", layout});
    const Ran ran = bench.run(words);
    INFO(ran.err);
    CHECK(ran.code < 2);
    return ran.out;
  };
  using Words = std::vector<std::string>;
  for (const Words& words : std::vector<Words>{{"show", "in.bin"},
                                               {"verify", "in.bin"},
                                               {"seal", "in.bin", "--force", "-o", "out.bin"},
                                               {"sheet", "in.bin", "-o", "-"}}) {
    INFO(words[0]);
    CHECK(said(words, "mine.json").find("(from mine.json, not built in)") != std::string::npos);
    CHECK(said(words, "at").find("not built in") == std::string::npos);
  }
  for (Words words : std::vector<Words>{{"show", "in.bin"},
                                        {"verify", "in.bin"},
                                        {"seal", "in.bin", "--force", "-o", "out.bin"}}) {
    INFO(words[0]);
    words.push_back("--json");
    CHECK(nlohmann::json::parse(said(words, "mine.json"))["layout_file"] == "mine.json");
    CHECK(nlohmann::json::parse(said(words, "at"))["layout_file"].is_null());
  }
}

TEST_CASE("characters without ink are told, on the terminal and in JSON") {
  // U+00AD, U+180E, U+3164, U+FFF9 and U+E0041 in UTF-8 (RFC 3629).
  const std::string inkless = "\xC2\xAD\xE1\xA0\x8E\xE3\x85\xA4\xEF\xBF\xB9\xF3\xA0\x81\x81";
  CHECK(printable(inkless) == "\\u{00AD}\\u{180E}\\u{3164}\\u{FFF9}\\u{E0041}");
  CHECK(printable_json("\"" + inkless + "\"") == R"("\u00ad\u180e\u3164\ufff9\udb40\udc41")");
  CHECK(nlohmann::json::parse(printable_json("\"" + inkless + "\"")) == inkless);
}

TEST_CASE("a link or a pipe that another user laid in a shared folder is refused") {
  if (::geteuid() != 0) return;
  const Workbench bench;
  bench.put("in.bin", at_64_bytes());
  bench.put("victim", std::string("mine"));
  fs::create_directory(bench.path("shared"));
  REQUIRE(::chmod(bench.path("shared").c_str(), 01777) == 0);
  REQUIRE(::symlink("../victim", bench.path("shared/link").c_str()) == 0);
  REQUIRE(::lchown(bench.path("shared/link").c_str(), 4321, 4321) == 0);
  REQUIRE(::mkfifo(bench.path("shared/pipe").c_str(), 0666) == 0);
  REQUIRE(::chown(bench.path("shared/pipe").c_str(), 4321, 4321) == 0);
  for (const char* name : {"shared/link", "shared/pipe"}) {
    const Ran ran = bench.run({"convert", "in.bin", "--to", "raw", "-o", name, "--force"});
    CHECK(ran.code == 2);
    CHECK(complains(ran, name, "another user has put a link or a pipe there"));
  }
  CHECK(bench.get("victim") == "mine");
  // One's own are one's own business.
  REQUIRE(::symlink("../victim", bench.path("shared/own").c_str()) == 0);
  CHECK(bench.run({"convert", "in.bin", "--to", "raw", "-o", "shared/own", "--force"}).code == 0);
}

TEST_CASE("a log that somebody holds for ever is given up, and left as it is", "[long]") {
  const Workbench bench;
  bench.put("clock.log", std::string());
  const Ran ran = bench.shell(
      "exec 9< clock.log; flock -x 9; (exec 9<&-; exec \"$0\" drift 2031-05-31T12:00:30 --at "
      "2031-05-31T12:00:00 --log clock2.log) > /dev/null; cp clock2.log clock.log; "
      "\"$0\" drift 2031-06-30T12:01:00 --at 2031-06-30T12:00:00 --log clock.log 9<&-");
  INFO(ran.err);
  CHECK(ran.code == 3);
  CHECK(complains(ran, "clock.log:", "another program holds it"));
  CHECK(bench.get("clock.log") == bench.get("clock2.log"));
}

TEST_CASE("where the system gives fewer threads than asked for, those do the work") {
  const Workbench bench;
  bench.put("in.bin", at_64_bytes());
  const auto nobody = bench.rtcmend_as_nobody();
  if (!nobody) return;
  const std::string limited = ::geteuid() == 0 ? "prlimit --nproc=3:3 " : "";
  fs::permissions(bench.path("."), fs::perms(0755));
  const Ran ran = bench.shell(limited + *nobody + "audit --jobs 256 in.bin");
  INFO(ran.out << ran.err);
  CHECK(ran.code == 0);
  CHECK(ran.out.find("1 dump: ") != std::string::npos);
}

TEST_CASE("a file whose name is as long as names may be is replaced like any other") {
  const Workbench bench;
  bench.put("in.bin", at_64_bytes());
  const std::string name = std::string(251, 'n') + ".bin";
  bench.put(name, std::string("old"));
  const Ran ran = bench.run({"convert", "in.bin", "-o", name, "--force"});
  INFO(ran.err);
  CHECK(ran.code == 0);
  CHECK(bench.bytes(name) == at_64_bytes());
  CHECK(bench.files() == 2);
}
