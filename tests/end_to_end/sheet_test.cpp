#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "support/sound_images.h"
#include "workbench.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

/// A bench with a sound AT-class dump.
struct Bench : Workbench {
  Bench() { put("new.bin", at_64_bytes()); }
  Ran sheet(const std::string& dump, const std::vector<std::string>& more) const {
    std::vector<std::string> words{"sheet", dump, "--layout", "at"};
    words.insert(words.end(), more.begin(), more.end());
    return run(words);
  }
};

bool says(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("sheet writes one page and says so") {
  const Bench bench;
  const Ran ran = bench.sheet("new.bin", {"-o", "sheet.html"});
  CHECK(ran.code == 0);
  CHECK(ran.out ==
        "Wrote sheet.html: a bench sheet, layout at.\nSound: settings proven, clock right.\n");
  const std::string page = bench.get("sheet.html");
  CHECK(page.starts_with("<!doctype html>\n<html lang=\"en\">"));
  CHECK(says(page, "<h1>new.bin</h1>"));
  CHECK(bench.files() == 2);
}

TEST_CASE("a dump that is not sound gets its sheet, and the exit code says what it is") {
  const Bench bench;
  auto bytes = at_64_bytes();
  bytes[0x2F] ^= 1;
  bench.put("bad.bin", bytes);
  const Ran ran = bench.sheet("bad.bin", {"-o", "sheet.html"});
  CHECK(ran.code == 1);
  CHECK(says(bench.get("sheet.html"), "check-mismatch"));
}

TEST_CASE("a sheet's title and note come from the command line, or from the dump") {
  const Bench bench;
  CHECK(bench.sheet("new.bin", {"-o", "a.html", "--title", "Bramble", "--note", "Cell & \"clip\""})
            .code == 0);
  CHECK(says(bench.get("a.html"), "<h1>Bramble</h1>"));
  CHECK(says(bench.get("a.html"), "Cell &amp; &quot;clip&quot;"));
  CHECK(bench
            .run({"compose", std::string(RTCMEND_SOURCE_DIR) + "/examples/machines/yarrow.json",
                  "-o", "yarrow.json"})
            .code == 0);
  CHECK(bench.run({"sheet", "yarrow.json", "-o", "b.html"}).code == 0);
  CHECK(says(bench.get("b.html"), "Yarrow, the tower by the window."));
}

TEST_CASE("a layout whose label is a script does nothing on a sheet") {
  const Bench bench;
  bench.put("odd.json",
            R"({"layout": "odd", "title": "<script>alert(1)</script>", "fields": [
    {"id": "a", "label": "<script>alert(2)</script>", "group": "<b>", "at": "10", "number": {},
     "source": "<i>from memory</i>"}]})");
  CHECK(bench.run({"sheet", "new.bin", "--layout", "odd.json", "-o", "sheet.html"}).code == 1);
  const std::string page = bench.get("sheet.html");
  CHECK_FALSE(says(page, "<script"));
  CHECK_FALSE(says(page, "<i>from memory"));
  CHECK(says(page, "&lt;script&gt;alert(2)&lt;/script&gt;"));
}

TEST_CASE("a file name with markup does nothing on a sheet") {
  const Bench bench;
  bench.put("<img src=x onerror=alert(1)>.bin", at_64_bytes());
  CHECK(bench.sheet("<img src=x onerror=alert(1)>.bin", {"-o", "sheet.html"}).code == 0);
  CHECK(says(bench.get("sheet.html"), "<h1>&lt;img src=x onerror=alert(1)&gt;.bin</h1>"));
}

TEST_CASE("sheet does not write over its input, nor over a file without --force") {
  const Bench bench;
  CHECK(bench.sheet("new.bin", {"-o", "new.bin", "--force"}).code == 2);
  CHECK(bench.bytes("new.bin") == at_64_bytes());
  bench.put("sheet.html", "old");
  CHECK(bench.sheet("new.bin", {"-o", "sheet.html"}).code == 2);
  CHECK(bench.get("sheet.html") == "old");
  CHECK(bench.sheet("new.bin", {"-o", "sheet.html", "--force"}).code == 0);
  CHECK(says(bench.get("sheet.html"), "</html>"));
  CHECK(complains(bench.sheet("new.bin", {}), "-o", "needed"));
}

TEST_CASE("a full device ends with 3, and nothing is half-written") {
  const Bench bench;
  const Ran ran = bench.sheet("new.bin", {"-o", "/dev/full"});
  CHECK(ran.code == 3);
  CHECK(complains(ran, "/dev/full", "cannot write"));
}

TEST_CASE("sheet goes to standard output, its report aside, and speaks JSON") {
  const Bench bench;
  const Ran ran = bench.sheet("new.bin", {"-o", "-", "--json"});
  CHECK(ran.code == 0);
  CHECK(ran.out.starts_with("<!doctype html>"));
  const auto report = nlohmann::json::parse(ran.err);
  CHECK(report["layout"] == "at");
  CHECK(report["sound"] == true);
  CHECK(report["output"] == "-");
}

TEST_CASE("a dump whose layout is not clear is refused with the candidates") {
  const Bench bench;
  // Both sums of the AT class fail by more than a slip.
  auto bytes = at_64_bytes();
  bytes[0x12] = 0xF7;
  bytes[0x15] = 0x00;
  bytes[0x17] = 0x77;
  bytes[0x2E] = 0x55;
  bench.put("unclear.bin", bytes);
  const Ran ran = bench.run({"sheet", "unclear.bin", "-o", "sheet.html"});
  CHECK(ran.code == 2);
  CHECK_FALSE(bench.has("sheet.html"));
}

TEST_CASE("every example machine gets a sheet") {
  const Bench bench;
  const std::string machines = std::string(RTCMEND_SOURCE_DIR) + "/examples/machines/";
  CHECK(bench.run({"sheet", machines + "bramble.bin", "-o", "bramble.html"}).code == 0);
  CHECK(
      bench.run({"sheet", machines + "juniper.txt", "--layout", "at", "-o", "juniper.html"}).code ==
      1);
  CHECK(
      bench.run({"sheet", machines + "sorrel.hex", "--layout", "crc+slots-19", "-o", "sorrel.html"})
          .code == 1);
}

TEST_CASE("a sheet plans the cell of the part that is named, and refuses one that nobody knows") {
  const Bench bench;
  // DS12CR887 charges its cell (data sheet 19-5217).
  CHECK(bench.sheet("new.bin", {"--part", "DS12CR887", "--cell", "-o", "charger.html"}).code == 0);
  CHECK(says(bench.get("charger.html"), "Fit no plain cell"));
  CHECK(bench.sheet("new.bin", {"--cell", "-o", "potted.html"}).code == 0);
  CHECK_FALSE(says(bench.get("potted.html"), "Fit no plain cell"));
  const Ran ran = bench.sheet("new.bin", {"--part", "DS1288", "-o", "none.html"});
  CHECK(ran.code == 2);
  CHECK(complains(ran, "--part", "no part \"DS1288\""));
  CHECK_FALSE(bench.has("none.html"));
}
