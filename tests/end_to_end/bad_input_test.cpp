#include <catch2/catch.hpp>
#include <filesystem>

#include "support/sound_images.h"
#include "workbench.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

/// Runs a conversion that must be refused, and checks that it left nothing.
Ran refused(const Workbench& bench, const std::string& dump,
            const std::vector<std::string>& more = {}) {
  std::vector<std::string> words = {"convert", dump, "--to", "raw", "-o", "out.bin"};
  words.insert(words.end(), more.begin(), more.end());
  const std::size_t before = bench.files();
  Ran ran = bench.run(words);
  CHECK(ran.code == 2);
  CHECK(ran.out.empty());
  CHECK(bench.files() == before);
  return ran;
}

/// A layout file that must be refused, for its message.
std::string refused_layout(const std::string& text) {
  const Workbench bench;
  bench.put("mine.json", text);
  const Ran ran = bench.run({"layouts", "check", "mine.json"});
  CHECK(ran.code == 2);
  CHECK(complains(ran, "mine.json", ""));
  return ran.err;
}

std::string layout_with(const std::string& fields, const std::string& checks) {
  return R"({"layout": "mine", "title": "Mine", "fields": [)" + fields + R"(], "checks": [)" +
         checks + "]}";
}

std::string field(const std::string& id, const std::string& place) {
  return R"({"id": ")" + id + R"(", "label": "A field", "group": "g", "source": "s", )" + place +
         "}";
}

bool has(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("a dump of the wrong size is refused") {
  const Workbench bench;
  bench.put("60.bin", std::vector<std::uint8_t>(60, 0xA5));
  const Ran ran = refused(bench, "60.bin", {"--form", "raw"});
  CHECK(complains(ran, "60.bin", "60"));
}

TEST_CASE("a wrong check byte in a record is refused with its line") {
  const Workbench bench;
  // The Intel HEX check byte makes the record's bytes sum to 0 (IntelHex): 7Ch in line 2.
  bench.put("bad.hex",
            ":02000000"
            "4040"
            "7E\n:02000200"
            "4040"
            "7D\n:00000001FF\n");
  CHECK(complains(refused(bench, "bad.hex", {"--form", "intel-hex"}), "bad.hex:2", ""));
  // An S-record's is the ones' complement of the sum (M68000PRM): 7Ah here.
  bench.put("bad.srec", "S1050000404000\n");
  CHECK(complains(refused(bench, "bad.srec", {"--form", "s-record"}), "bad.srec:1", ""));
}

TEST_CASE("addresses past the chip are refused") {
  const Workbench bench;
  // 01 + 00 + 90 + 00 + 55 = E6h, and 1Ah makes it 100h.
  bench.put("past.hex", ":01009000551A\n:00000001FF\n");
  CHECK(complains(refused(bench, "past.hex", {"--form", "intel-hex"}), "past.hex:1", ""));
}

TEST_CASE("overlapping records that disagree are refused") {
  const Workbench bench;
  // 01 + 00 + 10 + 00 + 40 = 51h, AFh makes it 100h; with 41h it is AEh.
  bench.put("two.hex", ":0100100040AF\n:0100100041AE\n:00000001FF\n");
  CHECK(complains(refused(bench, "two.hex", {"--form", "intel-hex"}), "two.hex:2", ""));
}

TEST_CASE("an odd number of hex digits is refused") {
  const Workbench bench;
  bench.put("odd.txt", "40 00 F0 0");
  CHECK(complains(refused(bench, "odd.txt", {"--form", "hex"}), "odd.txt", ""));
}

TEST_CASE("a row whose code does not fit is refused with its line") {
  const Workbench bench;
  bench.put("rows.txt", "10: 40 00 F0 00 0D 80 02 80 01 27 00 00 00 00 00 00 =00\n");
  CHECK(complains(refused(bench, "rows.txt", {"--form", "rows"}), "rows.txt:1", "10"));
}

TEST_CASE("files that are no dump at all are refused: large, empty, a folder, missing") {
  const Workbench bench;
  bench.put("large.bin", "");
  std::filesystem::resize_file(bench.path("large.bin"), 100 * 1024 * 1024);
  CHECK(complains(refused(bench, "large.bin"), "large.bin", "larger than"));
  bench.put("empty.bin", "");
  CHECK(complains(refused(bench, "empty.bin"), "empty.bin", "empty"));
  std::filesystem::create_directory(bench.path("folder"));
  CHECK(complains(refused(bench, "folder"), "folder", "folder"));
  CHECK(complains(refused(bench, "missing.bin"), "missing.bin", "No such file"));
}

TEST_CASE("an unknown field is refused with the nearest names") {
  const Workbench bench;
  bench.put("new.bin", at_64_bytes());
  const Ran ran = bench.run({"amend", "new.bin", "--set", "flopy_a=none", "-o", "out.bin"});
  CHECK(ran.code == 2);
  CHECK(has(ran.err, "flopy_a"));
  CHECK(has(ran.err, "\ntry: "));
  CHECK(has(ran.err, "floppy_a"));
  CHECK(bench.files() == 1);
}

TEST_CASE("an illegal value is refused with the legal ones") {
  const Workbench bench;
  bench.put("new.bin", at_64_bytes());
  const auto message = [&](const std::string& setting) {
    const Ran ran = bench.run({"amend", "new.bin", "--set", setting, "-o", "out.bin"});
    CHECK(ran.code == 2);
    CHECK(bench.files() == 1);
    return ran.err;
  };
  CHECK(has(message("floppy_a=2M"), "none, 360K, 1.2M, 720K, 1.44M, 2.88M"));
  CHECK(has(message("disk_0_type=15"), "0-14 or 16-255"));
  CHECK(has(message("base_memory_kib=5000"), "0-1024 KiB"));
  CHECK(has(message("coprocessor=perhaps"), "yes or no"));
}

TEST_CASE("a time that does not exist is refused") {
  const Workbench bench;
  bench.put("new.bin", at_64_bytes());
  for (const std::string time : {"2031-02-29T00:00:00", "1979-12-31T23:59:59", "later"}) {
    const Ran ran = bench.run({"amend", "new.bin", "--clock", time, "-o", "out.bin"});
    CHECK(ran.code == 2);
    CHECK(complains(ran, "--clock", "1980 and 2099"));
  }
  CHECK(bench.files() == 1);
}

TEST_CASE("a byte outside the chip, or half a byte, is refused") {
  const Workbench bench;
  bench.put("new.bin", at_64_bytes());
  for (const std::string byte : {"40=00", "3F=0000", "2D=4", "2D=", "2D", "=40", "2D=GG"}) {
    INFO(byte);
    const Ran ran = bench.run({"amend", "new.bin", "--byte", byte, "-o", "out.bin"});
    CHECK(ran.code == 2);
    CHECK(complains(ran, "--byte", ""));
  }
  CHECK(bench.files() == 1);
}

TEST_CASE("a layout that needs a larger chip is refused") {
  const Workbench bench;
  bench.put("new.bin", at_64_bytes());
  const Ran ran = bench.run({"show", "new.bin", "--layout", "at+sum-40-7d"});
  CHECK(ran.code == 2);
  CHECK(complains(ran, "new.bin", "it holds 64 bytes, and the layout at+sum-40-7d needs 128"));
}

TEST_CASE("a layout with a field outside the chip is refused with the JSON path") {
  CHECK(
      has(refused_layout(layout_with(field("a", R"("at": "0D", "number": {})"), "")), "/fields/0"));
}

TEST_CASE("two fields that claim one bit are refused") {
  const std::string message =
      refused_layout(layout_with(field("a", R"("at": "10", "bits": [7, 4], "number": {})") + "," +
                                     field("b", R"("at": "10", "bits": [4, 0], "number": {})"),
                                 ""));
  CHECK(has(message, "/fields/1"));
  CHECK(has(message, "10"));
}

TEST_CASE("a check that covers its own stored bytes is refused") {
  CHECK(has(refused_layout(layout_with(
                "", R"({"id": "c", "source": "s", "sum": {"width": 16}, "over": ["10-2F"],
                        "stored": {"at": "2E", "order": "high-first"}})")),
            "/checks/0"));
}

TEST_CASE("a circle of includes is refused") {
  const Workbench bench;
  bench.put("mine.json", R"({"layout": "mine", "title": "Mine", "includes": ["one"]})");
  bench.put("one.json", R"({"includes": ["two"]})");
  bench.put("two.json", R"({"includes": ["one"]})");
  const Ran ran = bench.run({"layouts", "check", "mine.json"});
  CHECK(ran.code == 2);
  CHECK(has(ran.err, "rtcmend: "));
  CHECK(has(ran.err, "includes itself"));
}

TEST_CASE("a wrong type in a layout is refused with the JSON path") {
  CHECK(has(refused_layout(layout_with(field("a", R"("at": 16, "number": {})"), "")),
            "/fields/0/at"));
}

TEST_CASE("a part may not lead out of the layout's folder") {
  const Workbench bench;
  std::filesystem::create_directory(bench.path("inner"));
  bench.put("secret.json", R"({"fields": []})");
  bench.put("inner/mine.json", R"({"layout": "mine", "title": "Mine", "includes": ["../secret"]})");
  CHECK(bench.run({"layouts", "check", "inner/mine.json"}).code == 2);
}

TEST_CASE("a dump may name a built-in layout, but no file") {
  const Workbench bench;
  bench.put("new.bin", at_64_bytes());
  REQUIRE(bench.run({"convert", "new.bin", "--layout", "at", "-o", "dump.json"}).code == 0);
  CHECK(bench.run({"verify", "dump.json"}).code == 0);
  std::string text = bench.get("dump.json");
  text.replace(text.find("\"at\""), 4, "\"/etc/passwd\"");
  bench.put("stranger.json", text);
  const Ran ran = bench.run({"verify", "stranger.json"});
  CHECK(ran.code == 2);
  CHECK(complains(ran, "stranger.json", "not built in"));
}

TEST_CASE("what a stranger's file says cannot steer the terminal") {
  const Workbench bench;
  bench.put("new.bin", at_64_bytes());
  const Ran missing = bench.run({"show", "\x1b]0;owned\x07.bin"});
  CHECK(missing.code == 2);
  CHECK(missing.err.find('\x1b') == std::string::npos);
  const std::string text =
      R"({"layout": "mine", "title": "\u001b[31mred", "notes": ["\u001b[2J"],
          "fields": [{"id": "a", "label": "\u001b[5mblink", "group": "\u0007", "source": "s",
          "at": "10", "number": {}}]})";
  bench.put("mine.json", text);
  for (const auto& words : std::vector<std::vector<std::string>>{
           {"layouts", "print", "./mine.json"},
           {"show", "new.bin", "--layout", "mine.json"},
           {"show", "new.bin", "--layout", "mine.json", "--map"},
           {"show", "new.bin", "--layout", "mine.json", "--json"}}) {
    const Ran ran = bench.run(words);
    CHECK(ran.out.find('\x1b') == std::string::npos);
    CHECK(ran.out.find('\x07') == std::string::npos);
    CHECK_FALSE(ran.out.empty());
  }
}

TEST_CASE("what the user may not read is told, wherever it is met") {
  const Workbench bench;
  for (const char* name : {"mine.bin", "box/closed.bin", "box/open.bin"}) {
    std::filesystem::create_directories(bench.path("box/locked"));
    bench.put(name, at_64_bytes());
  }
  namespace fs = std::filesystem;
  for (const char* name : {"mine.bin", "box/closed.bin", "box/locked"})
    fs::permissions(bench.path(name), fs::perms::none);
  fs::permissions(bench.path("box"), fs::perms(0755));
  fs::permissions(bench.path("."), fs::perms(0755));
  // Root may read everything, so someone else must try.
  const auto nobody = bench.rtcmend_as_nobody();
  if (!nobody) {
    WARN("skipped: rtcmend cannot be run by another user here");
    return;
  }
  const auto as_nobody = [&](const std::string& words) { return bench.shell(*nobody + words); };
  const Ran shown = as_nobody("show mine.bin");
  CHECK(shown.code == 2);
  CHECK(complains(shown, "mine.bin: Permission denied", "check that you may read it"));
  const Ran listed = as_nobody("history box/locked");
  CHECK(listed.code == 3);
  CHECK(complains(listed, "box/locked: Permission denied", ""));
  const Ran audited = as_nobody("audit box");
  CHECK(audited.code == 1);
  CHECK(has(audited.out, "box/closed.bin: Permission denied\n"));
  CHECK(has(audited.out, "box/locked: Permission denied\n"));
  CHECK(has(audited.out, "proven   sound          at              box/open.bin"));
  CHECK(has(as_nobody("audit --packed 64 box/closed.bin").out,
            "box/closed.bin: Permission denied\n"));
}

TEST_CASE("somebody else's file is not replaced by one of one's own") {
  const Workbench bench;
  bench.put("mine.bin", at_64_bytes());
  bench.put("theirs.bin", "old");
  namespace fs = std::filesystem;
  fs::permissions(bench.path("."), fs::perms(0777));
  fs::permissions(bench.path("theirs.bin"), fs::perms(04755));
  const auto nobody = bench.rtcmend_as_nobody();
  if (!nobody) {
    WARN("skipped: rtcmend cannot be run by another user here");
    return;
  }
  const Ran ran = bench.shell(*nobody + "seal mine.bin -o theirs.bin --force");
  CHECK(ran.code == 2);
  CHECK(complains(ran, "theirs.bin", "belongs to another user"));
  CHECK(bench.get("theirs.bin") == "old");
}

TEST_CASE("a history with a file that cannot be read on ends with 3") {
  const Workbench bench;
  bench.put("2031-05-14.bin", at_64_bytes());
  // Linux: the first page of a process is never there, so reading it fails.
  std::filesystem::create_symlink("/proc/self/mem", bench.path("2031-05-15.bin"));
  const Ran ran = bench.run({"history", "."});
  CHECK(ran.code == 3);
  CHECK(complains(ran, "./2031-05-15.bin: Input/output error", ""));
}

TEST_CASE("a part is read beside the layout that includes it, and from nowhere else") {
  const Workbench bench;
  bench.put("part.json", R"({"fields": [)" + field("a", R"("at": "10", "number": {})") + "]}");
  const auto check = [&](const std::string& part) {
    bench.put("mine.json", R"({"layout": "mine", "title": "Mine", "includes": [")" + part + "\"]}");
    return bench.run({"layouts", "check", "mine.json"});
  };
  CHECK(has(check("part").out, "mine.json is a good layout: mine, for 64 bytes or more, 1 fields"));
  CHECK(complains(check("none"), "mine.json at /includes", "there is no part \"none\""));
  // A bench's own path has letters that no include may have.
  const std::string elsewhere = "/tmp/rtcmend-part-" + std::to_string(::getpid());
  std::filesystem::copy(bench.path("part.json"), elsewhere + ".json");
  const Ran from_the_root = check(elsewhere);
  std::filesystem::remove(elsewhere + ".json");
  CHECK(complains(from_the_root, "mine.json at /includes", "there is no part \"/tmp/"));
  CHECK(complains(
      check("sub/../part"), "mine.json at /includes/0",
      "the layout schema wants a part's name such as parts/memory here, not \"sub/../part\""));
}
