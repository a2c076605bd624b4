#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "support/sound_images.h"
#include "workbench.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

constexpr auto machine = R"({"layout": "at", "clock": "2031-05-14T09:30:00", "note": "bench two",
  "set": {"floppy_a": "1.44M", "disk_0_type": 39, "base_memory_kib": 640,
          "extended_memory_kib": 384, "display": "own-firmware"}})";

}  // namespace

TEST_CASE("an AT-class machine is composed byte for byte from its description") {
  // The bytes and their sources stand in support/sound_images.h.
  const Workbench bench;
  bench.put("machine.json", machine);
  const Ran ran = bench.run({"compose", "machine.json", "-o", "new.bin"});
  CHECK(ran.code == 0);
  CHECK(ran.out.find(
            "Wrote new.bin: 64 bytes, raw, layout at.\nSound: settings proven, clock right.\n") ==
        0);
  CHECK(bench.bytes("new.bin") == at_64_bytes());
}

TEST_CASE("compose says what is left to do in the machine") {
  const Workbench bench;
  bench.put("machine.json", R"({"layout": "crc+copy-29", "set": {"floppy_a": "1.44M"}})");
  const Ran text = bench.run({"compose", "machine.json", "-o", "new.bin"});
  CHECK(text.out.find("Note: The machine's own start-up preferences") != std::string::npos);
  const Ran data = bench.run({"compose", "machine.json", "-o", "new2.bin", "--json"});
  CHECK(nlohmann::json::parse(data.out)["notes"].size() == 1);
}

TEST_CASE("changing the disk type moves it out of the escape byte, and back again") {
  // Type 2 fits the nibble, type 39 (27h) does not (RBIL61 C0014, C0020).
  const Workbench bench;
  bench.put("new.bin", at_64_bytes());
  REQUIRE(bench.run({"amend", "new.bin", "--set", "disk_0_type=2", "-o", "two.bin"}).code == 0);
  const auto two = bench.bytes("two.bin");
  CHECK(two[0x12] == 0x20);
  CHECK(two[0x19] == 0x00);
  // 0267h less F0h and 27h, and 20h more: 0170h.
  CHECK(two[0x2E] == 0x01);
  CHECK(two[0x2F] == 0x70);
  REQUIRE(bench.run({"amend", "two.bin", "--set", "disk_0_type=39", "-o", "back.bin"}).code == 0);
  CHECK(bench.bytes("back.bin") == at_64_bytes());
}

TEST_CASE("the option --clock has its way over the description, and now is this computer's time") {
  const Workbench bench;
  bench.put("machine.json", machine);
  REQUIRE(bench.run({"compose", "machine.json", "--clock", "1999-12-31T23:59:58", "-o", "a.bin"})
              .code == 0);
  const auto fixed = bench.bytes("a.bin");
  CHECK(fixed[0x00] == 0x58);
  CHECK(fixed[0x09] == 0x99);
  CHECK(fixed[0x32] == 0x19);
  REQUIRE(bench.run({"compose", "machine.json", "--clock", "now", "-o", "b.bin"}).code == 0);
  CHECK(bench.bytes("b.bin")[0x32] == 0x20);
}

TEST_CASE("a description on standard input gives an image on standard output, the report aside") {
  const Workbench bench;
  const Ran ran = bench.run({"compose", "-", "-o", "-", "--to", "rows"}, machine);
  CHECK(ran.code == 0);
  // CRC-8/SMBUS over 30h and the 16 bytes: FEh, by a bitwise reckoning in Python.
  CHECK(ran.out.find("30: 80 01 20 00 00 00 00 00 00 00 00 00 00 00 00 00 =") != std::string::npos);
  CHECK(ran.out.find("Wrote") == std::string::npos);
  CHECK(ran.err.find("Wrote -: 64 bytes, rows") == 0);
}

TEST_CASE("asked for, compose asks: Enter keeps, a wrong answer comes again, a point ends it") {
  const Workbench bench;
  const Ran ran = bench.run({"compose", "--ask", "--layout", "at", "--clock", "2031-05-14T09:30:00",
                             "--save", "machine.json", "-o", "new.bin"},
                            "?\n1.45M\n1.44M\n.\n");
  CHECK(ran.code == 0);
  CHECK(ran.out.find("First floppy drive (floppy_a)\n  none, 360K, 1.2M, 720K, 1.44M, 2.88M\n") !=
        std::string::npos);
  CHECK(ran.out.find("Field floppy_a, at 10h.") != std::string::npos);
  CHECK(ran.out.find("No: ") != std::string::npos);
  CHECK(bench.bytes("new.bin")[0x10] == 0x40);
  const auto saved = nlohmann::json::parse(bench.get("machine.json"));
  CHECK(saved["layout"] == "at");
  CHECK(saved["set"] == nlohmann::json({{"floppy_a", "1.44M"}}));
  const Ran again =
      bench.run({"compose", "machine.json", "--clock", "2031-05-14T09:30:00", "-o", "again.bin"});
  CHECK(again.code == 0);
  CHECK(bench.bytes("again.bin") == bench.bytes("new.bin"));
}

TEST_CASE("an early end of the answers writes nothing, and neither does consent withheld") {
  const Workbench bench;
  for (const char* answers : {"", "720K\n", "720K\n\n\n"}) {
    const Ran ran = bench.run(
        {"compose", "--ask", "--layout", "at", "--save", "machine.json", "-o", "new.bin"}, answers);
    CHECK(ran.code == 2);
    CHECK(ran.err.find("nothing is written") != std::string::npos);
  }
  const Ran no = bench.run({"compose", "--ask", "--layout", "at", "-o", "new.bin"},
                           std::string(11, '\n') + "n\n");
  CHECK(no.code == 2);
  CHECK(bench.files() == 0);
}

TEST_CASE("drives and memory are taken as people say them, wherever a value is given") {
  const Workbench bench;
  const Ran asked = bench.run({"compose", "--ask", "--layout", "at", "-o", "a.bin"},
                              "1.44 MB\n360k\nVGA\ny\n512 KB\n3M\n.\n");
  REQUIRE(asked.code == 0);
  const auto bytes = bench.bytes("a.bin");
  CHECK(bytes[0x10] == 0x41);
  CHECK((bytes[0x14] & 0x32) == 0x02);  // own firmware, a coprocessor
  CHECK(bytes[0x16] == 0x02);           // 512 = 0200h
  CHECK(bytes[0x18] == 0x0C);           // 3072 = 0C00h
  const Ran amended =
      bench.run({"amend", "a.bin", "--layout", "at", "--set", "floppy_b=1440K", "-o", "b.bin"});
  REQUIRE(amended.code == 0);
  CHECK(bench.bytes("b.bin")[0x10] == 0x44);
}

TEST_CASE("compose needs a description or --ask, and --ask a layout") {
  const Workbench bench;
  bench.put("machine.json", machine);
  const Ran nothing = bench.run({"compose", "-o", "new.bin"});
  CHECK(nothing.code == 2);
  CHECK(complains(nothing, "DESCRIPTION", "it is needed"));
  const Ran no_layout = bench.run({"compose", "--ask", "-o", "new.bin"});
  CHECK(no_layout.code == 2);
  CHECK(complains(no_layout, "--layout", "needed"));
  const Ran both = bench.run({"compose", "machine.json", "--ask", "--layout", "at", "-o", "x"});
  CHECK(both.code == 2);
  CHECK(complains(both, "--ask", "nothing to ask"));
  CHECK(bench.files() == 1);
}

TEST_CASE("a description that cannot be met is refused, and nothing is written") {
  const Workbench bench;
  bench.put("field.json", R"({"layout": "at", "set": {"flopy_a": "none"}})");
  bench.put("value.json", R"({"layout": "at", "set": {"floppy_a": "2M"}})");
  bench.put("count.json", R"({"layout": "at", "set": {"floppy_a": "1.44M", "floppy_count": 2}})");
  bench.put("broken.json", "{\"layout\": \"at\",\n \"set\": {,}}");
  bench.put("nolayout.json", R"({"set": {}})");
  const auto refusal = [&](const std::string& name) {
    const Ran ran = bench.run({"compose", name, "-o", "new.bin"});
    CHECK(ran.code == 2);
    CHECK_FALSE(bench.has("new.bin"));
    return ran.err;
  };
  CHECK(refusal("field.json").find("floppy_a") != std::string::npos);
  CHECK(refusal("value.json").find("none, 360K, 1.2M, 720K, 1.44M, 2.88M") != std::string::npos);
  CHECK(refusal("count.json").find("floppy_count") != std::string::npos);
  CHECK(refusal("broken.json").find("broken.json") != std::string::npos);
  CHECK(refusal("nolayout.json").find("names no layout") != std::string::npos);
}

TEST_CASE("the option --layout stands in for the description's own, and for one that is missing") {
  const Workbench bench;
  bench.put("machine.json", machine);
  bench.put("bare.json", R"({"set": {"floppy_a": "1.44M"}})");
  for (const char* name : {"machine.json", "bare.json"}) {
    const std::string output = std::string(name) + ".bin";
    const Ran ran = bench.run({"compose", name, "--layout", "at+sum-40-7d", "-o", output});
    CHECK(ran.code == 0);
    CHECK(ran.out.find(": 128 bytes, raw, layout at+sum-40-7d.\n") != std::string::npos);
    CHECK(bench.bytes(output)[0x10] == 0x40);
  }
}

TEST_CASE("the questions keep off standard output when the image goes there") {
  const Workbench bench;
  const Ran ran = bench.run({"compose", "--ask", "--layout", "at", "--clock", "2031-05-14T09:30:00",
                             "--to", "hex", "-o", "-"},
                            "1.44M\n.\n");
  CHECK(ran.code == 0);
  CHECK(ran.out.starts_with("00: 00 00 30 00 09 00 04 14 05 31 26 02 00 80"));
  CHECK(ran.out.find("floppy") == std::string::npos);
  CHECK(ran.err.find("First floppy drive (floppy_a)\n") != std::string::npos);
}

TEST_CASE("a description on standard output has it alone, asked or read") {
  const Workbench bench;
  bench.put("machine.json", R"({"layout": "at", "clock": "2031-05-14T09:30:00"})");
  const Ran read = bench.run({"compose", "machine.json", "--save", "-", "-o", "a.bin"});
  CHECK(read.code == 0);
  CHECK(nlohmann::json::parse(read.out)["layout"] == "at");
  CHECK(read.err.starts_with("Wrote a.bin: "));
  const Ran asked =
      bench.run({"compose", "--ask", "--layout", "at", "--save", "-", "-o", "b.bin"}, "1.44M\n.\n");
  CHECK(asked.code == 0);
  CHECK(nlohmann::json::parse(asked.out)["set"] == nlohmann::json({{"floppy_a", "1.44M"}}));
  CHECK(asked.err.find("First floppy drive (floppy_a)\n") != std::string::npos);
}
