#include <catch2/catch.hpp>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "support/sound_images.h"
#include "workbench.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

const std::vector<std::string> form_names = {"raw",       "hex",      "rows",    "code-text",
                                             "intel-hex", "s-record", "c-array", "json"};

std::vector<std::uint8_t> large_bytes() {
  std::vector<std::uint8_t> bytes(128);
  for (std::size_t i = 0; i < bytes.size(); ++i) bytes[i] = static_cast<std::uint8_t>(255 - 2 * i);
  return bytes;
}

}  // namespace

TEST_CASE("raw to any form and back is the identity, 64 and 128 bytes", "[long][count]") {
  const Workbench bench;
  for (const auto& bytes : {at_64_bytes(), large_bytes()}) {
    bench.put("start.bin", bytes);
    for (const std::string& form : form_names) {
      INFO(form);
      CHECK(bench
                .run({"convert", "start.bin", "--form", "raw", "--to", form, "-o", "there",
                      "--force"})
                .code == 0);
      CHECK(bench.run({"convert", "there", "--form", form, "-o", "back.bin", "--force"}).code == 0);
      CHECK(bench.bytes("back.bin") == bytes);
    }
  }
}

TEST_CASE("the output's name tells its form, and convert asks where it does not") {
  const Workbench bench;
  bench.put("start.bin", at_64_bytes());
  const auto first_of = [&](const std::string& name) {
    REQUIRE(bench.run({"convert", "start.bin", "-o", name}).code == 0);
    return bench.get(name).substr(0, 2);
  };
  CHECK(first_of("a.hex").substr(0, 1) == ":");
  CHECK(first_of("a.srec").substr(0, 1) == "S");
  CHECK(first_of("a.s19").substr(0, 1) == "S");
  CHECK(first_of("a.json").substr(0, 1) == "{");
  CHECK(first_of("a.txt") == "00");
  const Ran ran = bench.run({"convert", "start.bin", "-o", "a.dat"});
  CHECK(ran.code == 2);
  CHECK(complains(ran, "--to", "needed"));
  CHECK_FALSE(bench.has("a.dat"));
}

TEST_CASE("unknown bytes go into a raw file only with an explicit fill") {
  const Workbench bench;
  const auto whole = at_64_bytes();
  bench.put("ram.bin", std::vector<std::uint8_t>(whole.begin() + 14, whole.end()));
  const Ran refused = bench.run({"convert", "ram.bin", "--to", "raw", "-o", "out.bin"});
  CHECK(refused.code == 2);
  CHECK(refused.err.find("--fill") != std::string::npos);
  CHECK_FALSE(bench.has("out.bin"));
  CHECK(bench.run({"convert", "ram.bin", "--to", "raw", "--fill", "EE", "-o", "out.bin"}).code ==
        0);
  CHECK(bench.bytes("out.bin")[0x00] == 0xEE);
  CHECK(bench.bytes("out.bin")[0x0D] == 0xEE);
  CHECK(bench.bytes("out.bin")[0x12] == 0xF0);
  CHECK(bench.run({"convert", "ram.bin", "--to", "raw", "--fill", "XY", "-o", "x.bin"}).code == 2);
}

TEST_CASE("seal recomputes the check and nothing else") {
  const Workbench bench;
  auto bytes = at_64_bytes();
  bytes[0x2E] = 0x99;
  bench.put("bad.bin", bytes);
  const Ran ran = bench.run({"seal", "bad.bin", "--layout", "at", "-o", "good.bin"});
  CHECK(ran.code == 0);
  CHECK(ran.out.find("  2E  99 -> 02  sum-10-2d\n") != std::string::npos);
  CHECK(bench.bytes("good.bin") == at_64_bytes());
}

TEST_CASE("amend tells what it changed, byte by byte and to machines") {
  const Workbench bench;
  bench.put("new.bin", at_64_bytes());
  const Ran text = bench.run({"amend", "new.bin", "--set", "disk_0_type=2", "-o", "a.bin"});
  CHECK(text.out.find("4 bytes changed:\n"
                      "  12  F0 -> 20  disk_0_type\n"
                      "  19  27 -> 00  disk_0_type\n"
                      "  2E  02 -> 01  sum-10-2d\n"
                      "  2F  67 -> 70  sum-10-2d\n") != std::string::npos);
  CHECK(text.out.find("READBACK") != std::string::npos);
  const Ran machine =
      bench.run({"amend", "new.bin", "--set", "disk_0_type=2", "-o", "b.bin", "--json"});
  const auto report = nlohmann::json::parse(machine.out);
  CHECK(report["sound"] == true);
  CHECK(report["changes"][0] ==
        nlohmann::json::parse(
            R"({"at": 18, "before": 240, "after": 32, "fields": ["disk_0_type"]})"));
}

TEST_CASE("several settings may stand behind one --set, and bytes are set by address") {
  const Workbench bench;
  bench.put("new.bin", at_64_bytes());
  CHECK(bench
            .run({"amend", "new.bin", "--set", "floppy_a=none", "floppy_b=360K", "--byte",
                  "1B=A55A", "-o", "a.bin"})
            .code == 0);
  CHECK(bench.bytes("a.bin")[0x10] == 0x01);
  CHECK(bench.bytes("a.bin")[0x1B] == 0xA5);
  CHECK(bench.bytes("a.bin")[0x1C] == 0x5A);
  CHECK(bench.run({"verify", "a.bin", "--layout", "at"}).code == 0);
}

TEST_CASE("bytes of a password are neither shown nor changed") {
  const Workbench bench;
  auto bytes = crc_64_bytes();
  bytes[0x38] = 0xA7;  // the private area (RBIL61 CMOS 38h), outside the CRC
  bench.put("crc.bin", bytes);
  const Ran map = bench.run({"show", "crc.bin", "--layout", "crc+slots-19", "--map"});
  CHECK(map.out.find("A7") == std::string::npos);
  CHECK(map.out.find("**") != std::string::npos);
  const Ran set = bench.run(
      {"amend", "crc.bin", "--layout", "crc+slots-19", "--byte", "38=00", "-o", "open.bin"});
  CHECK(set.code == 2);
  CHECK(complains(set, "--byte", "does not change"));
  bench.put("plain.bin", crc_64_bytes());
  const Ran compared =
      bench.run({"compare", "crc.bin", "plain.bin", "--layout", "crc+slots-19", "--json"});
  CHECK(compared.out.find("167") == std::string::npos);
}

TEST_CASE("an image that would not be sound is refused, and written only when told so") {
  const Workbench bench;
  auto bytes = at_64_bytes();
  bytes[0x10] = 0x90;  // no floppy has code 9 (RBIL61 C0007)
  bench.put("odd.bin", bytes);
  const Ran refused = bench.run({"seal", "odd.bin", "--layout", "at", "-o", "out.bin"});
  CHECK(refused.code == 2);
  CHECK(complains(refused, "odd.bin", "nothing was written"));
  CHECK(refused.err.find("--unsound-anyway") != std::string::npos);
  CHECK_FALSE(bench.has("out.bin"));
  const Ran written =
      bench.run({"seal", "odd.bin", "--layout", "at", "-o", "out.bin", "--unsound-anyway"});
  CHECK(written.code == 1);
  // The check was sealed here, so it vouches for nothing.
  CHECK(written.out.find("field-unlisted at 10h") != std::string::npos);
  CHECK(written.out.find("Beware: this image is written because you insisted") !=
        std::string::npos);
  CHECK(bench.has("out.bin"));
}

TEST_CASE("a clock that is wrong does not stop what leaves it alone") {
  const Workbench bench;
  auto bytes = at_64_bytes();
  bytes[0x0B] = 0x82;  // SET left on: the clock stands still
  bytes[0x07] = 0x45;  // the 45th of May
  bench.put("odd.bin", bytes);
  const Ran ran = bench.run({"seal", "odd.bin", "--layout", "at", "-o", "out.bin"});
  CHECK(ran.code == 1);
  CHECK(ran.out.find("Settings proven; the clock stands still and must be set.") !=
        std::string::npos);
  CHECK(bench.bytes("out.bin") == bytes);
}

TEST_CASE("a dump taken with a flat cell may be written: no write changes VRT") {
  const Workbench bench;
  auto bytes = at_64_bytes();
  bytes[0x0D] = 0x00;
  bench.put("flat.bin", bytes);
  const Ran ran = bench.run({"seal", "flat.bin", "--layout", "at", "-o", "out.bin"});
  CHECK(ran.code == 1);
  CHECK(ran.out.find("cell-flat") != std::string::npos);
  CHECK(bench.bytes("out.bin") == bytes);
}

TEST_CASE("a file-size limit ends with 3 and leaves the old file as it was", "[rlimit]") {
  const Workbench bench;
  bench.put("new.bin", at_64_bytes());
  bench.put("old.bin", "what was there before");
  Start start;
  start.arguments = {"seal", "new.bin", "-o", "old.bin", "--force"};
  start.largest_file = 0;
  // Nothing can be written then, messages included.
  CHECK(bench.run(start).code == 3);
  CHECK(bench.get("old.bin") == "what was there before");
  CHECK(bench.files() == 2);
}

TEST_CASE("a full device ends with 3, as output and as standard output") {
  const Workbench bench;
  bench.put("new.bin", at_64_bytes());
  const Ran device = bench.run({"convert", "new.bin", "--to", "raw", "-o", "/dev/full"});
  CHECK(device.code == 3);
  CHECK(complains(device, "/dev/full", "cannot write"));
  Start start;
  start.arguments = {"show", "new.bin"};
  start.output_to = "/dev/full";
  const Ran standard = bench.run(start);
  CHECK(standard.code == 3);
  CHECK(complains(standard, "standard output", "could not take everything"));
}

TEST_CASE("an input is never written over, by whatever name it goes") {
  const Workbench bench;
  bench.put("new.bin", at_64_bytes());
  std::filesystem::create_symlink("new.bin", bench.path("link.bin"));
  std::filesystem::create_hard_link(bench.path("new.bin"), bench.path("twin.bin"));
  for (const std::string name : {"new.bin", "./new.bin", "link.bin", "twin.bin"}) {
    INFO(name);
    const Ran ran =
        bench.run({"amend", "new.bin", "--set", "floppy_b=360K", "-o", name, "--force"});
    CHECK(ran.code == 2);
    CHECK(complains(ran, name, "input is never written over"));
  }
  CHECK(bench.bytes("new.bin") == at_64_bytes());
}

TEST_CASE("an existing output is replaced only with --force") {
  const Workbench bench;
  bench.put("new.bin", at_64_bytes());
  bench.put("old.bin", "old");
  for (const auto& words : std::vector<std::vector<std::string>>{
           {"seal", "new.bin", "-o", "old.bin"},
           {"amend", "new.bin", "--set", "floppy_b=360K", "-o", "old.bin"},
           {"convert", "new.bin", "--to", "hex", "-o", "old.bin"}}) {
    const Ran ran = bench.run(words);
    CHECK(ran.code == 2);
    CHECK(complains(ran, "old.bin", "exists"));
    CHECK(bench.get("old.bin") == "old");
  }
  CHECK(bench.run({"seal", "new.bin", "-o", "old.bin", "--force"}).code == 0);
  CHECK(bench.bytes("old.bin") == at_64_bytes());
}

TEST_CASE("amend tells a dump's name from a setting, and takes one dump") {
  const Workbench bench;
  bench.put("new.bin", at_64_bytes());
  bench.put("odd=name.bin", at_64_bytes());
  CHECK(complains(bench.run({"amend", "new.bin", "other.bin", "--set", "floppy_b=360K", "-o", "x"}),
                  "amend", "\"other.bin\" is one word too many"));
  CHECK(complains(bench.run({"amend", "floppy_b=360K", "-o", "x"}), "DUMP", "it is needed"));
  CHECK(complains(bench.run({"amend", "=x", "--set", "floppy_b=360K", "-o", "x"}), "=x",
                  "No such file"));
  const Ran named = bench.run({"amend", "./odd=name.bin", "--set", "floppy_b=360K", "-o", "x.bin"});
  CHECK(named.code == 0);
  CHECK(bench.bytes("x.bin")[0x10] == 0x41);
}

TEST_CASE("a byte that a field names may be set by its address all the same") {
  const Workbench bench;
  bench.put("new.bin", at_64_bytes());
  CHECK(bench.run({"amend", "new.bin", "--byte", "10=41", "-o", "x.bin"}).code == 0);
  CHECK(bench.bytes("x.bin")[0x10] == 0x41);
  CHECK(bench.bytes("x.bin")[0x2F] == 0x68);
}

TEST_CASE("convert takes back what happened to a whole dump, in the order told") {
  const Workbench bench;
  auto bytes = at_64_bytes();
  std::rotate(bytes.begin(), bytes.end() - 1, bytes.end());
  for (std::uint8_t& byte : bytes) byte = static_cast<std::uint8_t>(byte << 4 | byte >> 4);
  bench.put("wrong.bin", bytes);
  const Ran ran = bench.run({"convert", "wrong.bin", "--undo", "nibbles", "--undo", "shift=1", "-o",
                             "right.bin", "--json"});
  CHECK(ran.code == 0);
  CHECK(ran.out ==
        "{\"output\":\"right.bin\",\"size\":64,\"from\":\"raw\",\"form\":\"raw\","
        "\"unknown\":[],\"notes\":[]}\n");
  CHECK(bench.bytes("right.bin") == at_64_bytes());
  CHECK(complains(bench.run({"convert", "wrong.bin", "--undo", "sideways", "-o", "x.bin"}),
                  "--undo", "nothing that can be undone"));
}

TEST_CASE("a standard output that is full ends with 3, however little or much goes there") {
  const Workbench bench;
  bench.put("new.bin", at_64_bytes());
  for (const auto& words : std::vector<std::vector<std::string>>{
           {"convert", "new.bin", "--to", "raw", "-o", "-"}, {"chips", "DS12887"}, {"manual"}}) {
    INFO(words[0]);
    Start start;
    start.arguments = words;
    start.output_to = "/dev/full";
    const Ran ran = bench.run(start);
    CHECK(ran.code == 3);
    CHECK(complains(ran, "standard output: ", ""));
  }
}

TEST_CASE(
    "amend asks, changes what was answered otherwise, and writes nothing when the answers end "
    "early") {
  const Workbench bench;
  bench.put("in.bin", at_64_bytes());
  const Ran early = bench.run({"amend", "in.bin", "--ask", "-o", "out.bin"}, "1.2M\n");
  CHECK(early.code == 2);
  CHECK_FALSE(bench.has("out.bin"));
  const Ran ran = bench.run({"amend", "in.bin", "--ask", "-o", "out.bin"}, "1.2M\n.\n");
  INFO(ran.out << ran.err);
  CHECK(ran.code == 0);
  const auto bytes = bench.bytes("out.bin");
  // 1.2M is 2 in the high half of 10h (RBIL61 CMOS 10h), and the sum 0267h loses 20h.
  CHECK(bytes[0x10] == 0x20);
  CHECK(bytes[0x2E] == 0x02);
  CHECK(bytes[0x2F] == 0x47);
  CHECK(bytes[0x08] == at_64_bytes()[0x08]);
  CHECK(bench.run({"amend", "-", "--ask", "-o", "x.bin"}, ".\n").code == 2);
}
