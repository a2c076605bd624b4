#include <algorithm>
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "judge/examine.h"
#include "layout/library.h"
#include "support/sound_images.h"
#include "workbench.h"

using namespace rtcmend;
using namespace rtcmend::test;
using nlohmann::json;

namespace {

/// Bits of bytes 10h to `last` whose change the judgement does not notice.
int unjudged(const std::vector<std::uint8_t>& good, Address last, const std::string& id) {
  const Layout layout = built_in_layout(id);
  int missed = 0;
  for (std::size_t at = 0x10; at <= last; ++at)
    for (unsigned bit = 0; bit < 8; ++bit) {
      auto damaged = good;
      damaged[at] = static_cast<std::uint8_t>(damaged[at] ^ (1U << bit));
      if (examine(Image(damaged), layout).sound) ++missed;
    }
  return missed;
}

/// The same through the program, where each byte loses one bit, a different one from byte to byte.
int unnoticed(const Workbench& bench, const std::vector<std::uint8_t>& good, Address last,
              const std::string& layout) {
  int missed = 0;
  for (std::size_t at = 0x10; at <= last; ++at) {
    auto damaged = good;
    damaged[at] = static_cast<std::uint8_t>(damaged[at] ^ (1U << (at % 8)));
    bench.put("damaged.bin", damaged);
    if (bench.run({"verify", "damaged.bin", "--layout", layout}).code != 1) ++missed;
  }
  return missed;
}

}  // namespace

TEST_CASE("verify notices every single bit of the covered bytes and of the sum, at",
          "[long][count]") {
  const Workbench bench;
  CHECK(unjudged(at_64_bytes(), 0x2F, "at") == 0);
  CHECK(unnoticed(bench, at_64_bytes(), 0x2F, "at") == 0);
}

TEST_CASE("verify notices every single bit of the covered bytes and of the CRC, crc+slots-19",
          "[long][count]") {
  const Workbench bench;
  CHECK(unjudged(crc_64_bytes(), 0x33, "crc+slots-19") == 0);
  CHECK(unnoticed(bench, crc_64_bytes(), 0x33, "crc+slots-19") == 0);
}

TEST_CASE("show tells machines what design promises, numbers as numbers") {
  const Workbench bench;
  bench.put("new.bin", at_64_bytes());
  const Ran ran = bench.run({"show", "new.bin", "--json"});
  CHECK(ran.code == 0);
  const json shown = json::parse(ran.out);
  CHECK(shown["layout"] == "at");
  CHECK(shown["size"] == 64);
  CHECK(shown["form"] == "raw");
  CHECK(shown["sound"] == true);
  CHECK(shown["clock"] == json::parse(R"({"iso": "2031-05-14T09:30:00", "weekday": 4,
                                          "encoding": "bcd", "hours": 24, "running": true})"));
  CHECK(shown["checks"] == json::parse(R"([{"id": "sum-10-2d", "kind": "sum", "over": [[16, 45]],
      "at": [46, 47], "stored": 615, "computed": 615, "ok": true}])"));
  CHECK(shown["findings"] == json::array());
  for (const json& field : shown["fields"]) {
    if (field["id"] != "disk_0_type") continue;
    CHECK(field == json::parse(R"({"id": "disk_0_type", "label": "First fixed disk, type",
        "group": "drives", "at": [18, 25], "value": 39, "text": "39", "known": true})"));
  }
}

TEST_CASE("what a dump does not hold is null, not zero") {
  const Workbench bench;
  const auto whole = at_64_bytes();
  bench.put("ram.bin", std::vector<std::uint8_t>(whole.begin() + 14, whole.end()));
  const Ran ran = bench.run({"show", "ram.bin", "--layout", "at", "--json"});
  CHECK(ran.code == 1);
  const json shown = json::parse(ran.out);
  CHECK(shown["standing"] ==
        json::parse(R"({"dump": "trusted", "settings": "proven", "clock": "unset"})"));
  CHECK(shown["size"] == 64);
  CHECK(shown["clock"]["iso"].is_null());
  CHECK(shown["clock"]["weekday"].is_null());
  CHECK(shown["clock"]["encoding"].is_null());
  CHECK(shown["clock"]["running"].is_null());
  const Ran map = bench.run({"show", "ram.bin", "--layout", "at", "--map"});
  CHECK(map.out.find("  00  ?? ?? ?? ?? ?? ?? ?? ??  ?? ?? ?? ?? ?? ?? 00 00\n") !=
        std::string::npos);
}

TEST_CASE("a failed check is told with both values, and ends with 1") {
  const Workbench bench;
  auto bytes = at_64_bytes();
  bytes[0x2F] = 0x68;
  bench.put("bad.bin", bytes);
  const Ran text = bench.run({"verify", "bad.bin", "--layout", "at"});
  CHECK(text.code == 1);
  CHECK(text.out.find("FAILS  stored 0268, should be 0267") != std::string::npos);
  const Ran machine = bench.run({"verify", "bad.bin", "--layout", "at", "--json"});
  CHECK(machine.code == 1);
  const json verdict = json::parse(machine.out);
  CHECK(verdict["sound"] == false);
  CHECK(verdict["checks"][0]["stored"] == 616);
  CHECK(verdict["checks"][0]["computed"] == 615);
  CHECK(verdict["findings"][0]["severity"] == "fault");
  CHECK(verdict["findings"][0].contains("do"));
}

TEST_CASE("a dump comes through standard input as well") {
  const Workbench bench;
  const auto bytes = crc_64_bytes();
  const Ran ran = bench.run({"verify", "-", "--json"}, std::string(bytes.begin(), bytes.end()));
  CHECK(ran.code == 0);
  CHECK(json::parse(ran.out)["layout"] == "crc+slots-19");
}

TEST_CASE("identify ranks the layouts, best first") {
  const Workbench bench;
  bench.put("crc.bin", crc_64_bytes());
  const Ran ran = bench.run({"identify", "crc.bin", "--json"});
  CHECK(ran.code == 0);
  const json found = json::parse(ran.out);
  CHECK(found["candidates"][0]["layout"] == "crc+slots-19");
  CHECK(found["candidates"][0]["score"].is_number());
  CHECK(found["candidates"][0]["why"].is_string());
  CHECK(bench.run({"identify", "crc.bin"}).out.find("The layout is crc+slots-19.") == 0);
}

TEST_CASE("without a clear layout the candidates are listed") {
  const Workbench bench;
  // Both sums of the AT class fail by more than a slip.
  auto bytes = at_64_bytes();
  bytes[0x12] = 0xF7;
  bytes[0x15] = 0x00;
  bytes[0x17] = 0x77;
  bytes[0x2E] = 0x55;
  bench.put("bare.bin", bytes);
  const Ran ran = bench.run({"show", "bare.bin"});
  CHECK(ran.code == 2);
  CHECK(complains(ran, "bare.bin", "candidates: "));
  CHECK(
      ran.err.find("\ntry: Name one (--layout ID); See the evidence for each (rtcmend identify ") !=
      std::string::npos);
}

TEST_CASE("a dump with one slip is read by its layout without being told") {
  const Workbench bench;
  auto bytes = at_64_bytes();
  bytes[0x2F] = 0x66;
  bench.put("slip.bin", bytes);
  const Ran ran = bench.run({"verify", "slip.bin", "--json"});
  CHECK(ran.code == 1);
  const json verified = json::parse(ran.out);
  CHECK(verified["layout"] == "at");
  CHECK(verified["checks"][0]["ok"] == false);
  CHECK(verified["suspects"].size() > 0);
}

TEST_CASE("identify says what is wrong with the dump as a whole, with the way back") {
  const Workbench bench;
  auto bytes = at_64_bytes();
  std::rotate(bytes.begin(), bytes.end() - 1, bytes.end());
  bench.put("late.bin", bytes);
  const Ran ran = bench.run({"identify", "late.bin"});
  CHECK(ran.out.find("No layout fits.") == 0);
  CHECK(ran.out.find("--undo shift=1") != std::string::npos);
  const json found = json::parse(bench.run({"identify", "late.bin", "--json"}).out);
  CHECK(found["findings"][0]["id"] == "shifted");
  const json shown = json::parse(bench.run({"show", "late.bin", "--layout", "at", "--json"}).out);
  CHECK(shown["findings"][0]["id"] == "shifted");
}

TEST_CASE("bytes that no layout explains are refused") {
  const Workbench bench;
  std::vector<std::uint8_t> scattered(64);
  for (std::size_t i = 0; i < scattered.size(); ++i)
    scattered[i] = static_cast<std::uint8_t>(i * 37 + 11);
  bench.put("odd.bin", scattered);
  const Ran ran = bench.run({"show", "odd.bin"});
  CHECK(ran.code == 2);
  CHECK(complains(ran, "odd.bin", "no layout"));
}

TEST_CASE("compare leaves out what ticks and what cannot be written") {
  const Workbench bench;
  bench.put("wanted.bin", at_64_bytes());
  auto found = at_64_bytes();
  found[0x00] = 0x17;  // a second later and more
  found[0x0D] = 0x00;
  bench.put("found.bin", found);
  CHECK(bench.run({"compare", "wanted.bin", "found.bin"}).code == 0);
  found[0x10] = 0x44;
  bench.put("other.bin", found);
  const Ran ran = bench.run({"compare", "wanted.bin", "other.bin", "--json"});
  CHECK(ran.code == 1);
  const json compared = json::parse(ran.out);
  CHECK(compared["equal"] == false);
  for (const json& difference : compared["differences"]) {
    if (difference["at"] == 0x10) {
      CHECK(difference["wanted"] == 0x40);
      CHECK(difference["found"] == 0x44);
      CHECK(difference["ignored"].is_null());
    } else {
      CHECK(difference["ignored"].is_string());
    }
  }
  CHECK(bench.run({"compare", "-", "-"}).code == 2);
}

TEST_CASE("amend applies a suspect when it is told to, and no other") {
  const Workbench bench;
  auto bytes = at_64_bytes();
  bytes[0x15] = 0x00;  // 80h with bit 7 fallen
  bench.put("bad.bin", bytes);
  const Ran mended =
      bench.run({"amend", "bad.bin", "--layout", "at", "--accept", "bit-15-7", "-o", "good.bin"});
  CHECK(mended.code == 0);
  CHECK(bench.bytes("good.bin") == at_64_bytes());
  CHECK(bench.bytes("bad.bin") == bytes);
  const Ran refused =
      bench.run({"amend", "bad.bin", "--layout", "at", "--accept", "bit-99-9", "-o", "other.bin"});
  CHECK(refused.code == 2);
  CHECK(complains(refused, "--accept", "not among the suspects"));
  CHECK_FALSE(bench.has("other.bin"));
}

TEST_CASE("forecast tells the codes that the machine would show, and ends with 1 for them") {
  const Workbench bench;
  bench.put("new.bin", at_64_bytes());
  const Ran none = bench.run({"forecast", "new.bin"});
  CHECK(none.code == 0);
  CHECK(none.out.starts_with("Nothing in this image would raise a code at power-on.\n"));
  CHECK(bench.run({"forecast", "new.bin", "--json"}).out ==
        "{\"codes\":[],\"cannot_promise\":[],\"misread\":false,\"layout\":\"at\",\"layout_file\":"
        "null}\n");
  // DS12885: VRT = 0 in 0Dh, the cell is exhausted.
  auto bytes = at_64_bytes();
  bytes[0x0D] = 0x00;
  bench.put("flat.bin", bytes);
  const Ran flat = bench.run({"forecast", "flat.bin"});
  CHECK(flat.code == 1);
  CHECK(
      flat.out.starts_with("  161      The configuration is lost: the cell is flat or absent.\n"));
  const Ran machine = bench.run({"forecast", "flat.bin", "--json"});
  CHECK(machine.code == 1);
  const json codes = json::parse(machine.out)["codes"];
  REQUIRE(codes.size() == 1);
  CHECK(codes[0]["code"] == "161");
  CHECK(codes[0]["because"] == json::array({"cell-flat"}));
}

TEST_CASE("explain speaks JSON, knows what it does not know, and ties codes to a dump") {
  const Workbench bench;
  const Ran alone = bench.run({"explain", "1234", "161", "--json"});
  CHECK(alone.code == 0);
  const json codes = json::parse(alone.out)["codes"];
  REQUIRE(codes.size() == 2);
  CHECK(
      codes[0] ==
      json::parse(R"({"code": "1234", "known": false, "chip": null, "look_at": null, "means": null,
                                    "causes": [], "do": null, "source": null})"));
  CHECK(codes[1]["known"] == true);
  CHECK(codes[1]["causes"][0]["seen"].empty());
  CHECK(bench.run({"explain", "1234"}).out.find("is not a code that this program knows") !=
        std::string::npos);
  auto bytes = at_64_bytes();
  bytes[0x0D] = 0x00;
  bench.put("flat.bin", bytes);
  const Ran tied = bench.run({"explain", "161", "--dump", "flat.bin", "--json"});
  CHECK(json::parse(tied.out)["codes"][0]["causes"][0]["seen"] == json::array({"cell-flat"}));
  for (const char* option : {"--layout", "--form"})
    CHECK(complains(bench.run({"explain", "161", option, "raw"}), "--dump",
                    "--layout and --form need a dump"));
}

TEST_CASE("verify holds a second dump of the same chip against the first") {
  const Workbench bench;
  bench.put("first.bin", at_64_bytes());
  auto bytes = at_64_bytes();
  bytes[0x00] = 0x07;  // seconds go on
  bench.put("steady.bin", bytes);
  bytes[0x20] = 0x08;
  bytes[0x25] = 0x08;
  bench.put("unsteady.bin", bytes);
  CHECK(bench.run({"verify", "first.bin", "--again", "steady.bin"}).code == 0);
  const Ran ran = bench.run({"verify", "first.bin", "--again", "unsteady.bin", "--json"});
  CHECK(ran.code == 1);
  const json verified = json::parse(ran.out);
  CHECK(verified["sound"] == false);
  CHECK(verified["findings"][0]["id"] == "unstable-reads");
  CHECK(verified["findings"][0]["at"] == json::array({0x20, 0x25}));
}

TEST_CASE("a blank dump is told as blank, and not by a list of layouts") {
  const Workbench bench;
  bench.put("blank.bin", std::vector<std::uint8_t>(128, 0xFF));
  const Ran ran = bench.run({"show", "blank.bin"});
  CHECK(ran.code == 2);
  CHECK(complains(ran, "blank.bin", "no layout can be told. "));
  CHECK(ran.err.find("candidates") == std::string::npos);
}

TEST_CASE("64 bytes that stand twice in 128 are looked at by the layouts of both sizes") {
  const Workbench bench;
  auto bytes = at_64_bytes();
  const auto half = bytes;
  bytes.insert(bytes.end(), half.begin(), half.end());
  bench.put("twice.bin", bytes);
  const json found = json::parse(bench.run({"identify", "twice.bin", "--json"}).out);
  bool of_64 = false;
  for (const json& candidate : found["candidates"]) of_64 = of_64 || candidate["layout"] == "at";
  CHECK(of_64);
}

TEST_CASE("where the clock alone makes sense, the layout of the clock is the one candidate") {
  const Workbench bench;
  auto bytes = at_64_bytes();
  for (std::size_t i = 14; i < bytes.size(); ++i) bytes[i] = static_cast<std::uint8_t>(i * 37 + 11);
  bench.put("odd.bin", bytes);
  const Ran ran = bench.run({"show", "odd.bin"});
  CHECK(ran.code == 2);
  CHECK(complains(ran, "odd.bin", "candidates: chip\n"));
  const Ran alone = bench.run({"show", "odd.bin", "--layout", "chip"});
  CHECK(alone.code == 1);
  CHECK(alone.out.find("Settings unproven; the clock is right.") != std::string::npos);
}

TEST_CASE("standard input gives one file, and says so to the second") {
  const Workbench bench;
  const auto bytes = at_64_bytes();
  const std::string dump(bytes.begin(), bytes.end());
  const Ran both = bench.run({"verify", "-", "--again", "-"}, dump);
  CHECK(both.code == 2);
  CHECK(both.err ==
        "rtcmend: standard input: it is empty\n"
        "try: one file alone can come from there; name the others\n");
  bench.put("first.bin", bytes);
  CHECK(bench.run({"verify", "first.bin", "--again", "-"}, dump).code == 0);
}

TEST_CASE("one side of a comparison may come through standard input") {
  const Workbench bench;
  auto bytes = at_64_bytes();
  bench.put("wanted.bin", bytes);
  const std::string same(bytes.begin(), bytes.end());
  bytes[0x20] = 0x01;
  const std::string other(bytes.begin(), bytes.end());
  CHECK(bench.run({"compare", "-", "wanted.bin"}, same).code == 0);
  CHECK(bench.run({"compare", "wanted.bin", "-"}, same).code == 0);
  CHECK(bench.run({"compare", "wanted.bin", "-"}, other).code == 1);
}
