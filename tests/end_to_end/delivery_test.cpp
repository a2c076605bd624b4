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
  Ran deliver(const std::vector<std::string>& more) const {
    std::vector<std::string> words{"deliver", "new.bin", "--layout", "at"};
    words.insert(words.end(), more.begin(), more.end());
    return run(words);
  }
};

}  // namespace

TEST_CASE("deliver writes a carrier for every way, with steps and cautions") {
  const Bench bench;
  for (const std::string way :
       {"boot-floppy", "dos-program", "debugger-script", "basic-listing", "keyboard-program"}) {
    INFO(way);
    const Ran ran = bench.deliver({"--as", way, "-o", way + ".out"});
    CHECK(ran.code == 0);
    CHECK(bench.has(way + ".out"));
    CHECK(ran.out.find("What to do\n") != std::string::npos);
    CHECK(ran.out.find("Beware\n") != std::string::npos);
    // CRC-16/IBM-3740 over 0Eh-3Fh by Python's binascii.crc_hqx(bytes, 0xFFFF).
    CHECK(ran.out.find("Check code of the image: A36B. ") != std::string::npos);
  }
}

TEST_CASE("deliver makes the disk in the format asked for") {
  const Bench bench;
  CHECK(bench.deliver({"--as", "boot-floppy", "--disk", "360K", "-o", "a.img"}).code == 0);
  CHECK(bench.get("a.img").size() == 368640);
  CHECK(bench.deliver({"--as", "boot-floppy", "--disk", "2.88M", "-o", "b.img"}).code == 2);
  CHECK_FALSE(bench.has("b.img"));
}

TEST_CASE("an image that is not sound is not delivered, unless it is wanted so") {
  const Bench bench;
  auto bytes = at_64_bytes();
  bytes[0x2F] ^= 1;
  bench.put("new.bin", bytes);
  const Ran refused = bench.deliver({"--as", "dos-program", "-o", "MEND.COM"});
  CHECK(refused.code == 2);
  CHECK(complains(refused, "new.bin", "would not be sound: check-mismatch"));
  CHECK_FALSE(bench.has("MEND.COM"));
  const Ran forced = bench.deliver({"--as", "dos-program", "-o", "MEND.COM", "--unsound-anyway"});
  CHECK(forced.code == 1);
  CHECK(bench.has("MEND.COM"));
  CHECK(forced.out.find("Not sound: ") != std::string::npos);
}

TEST_CASE("deliver says which bytes it leaves alone") {
  const Bench bench;
  const auto bytes = at_64_bytes();
  // The RAM part alone, as an operating system gives it: the clock bytes are unknown.
  bench.put("new.bin", std::vector<std::uint8_t>(bytes.begin() + 14, bytes.end()));
  const Ran ran = bench.deliver({"--as", "boot-floppy", "-o", "mend.img"});
  CHECK(ran.code == 0);
  CHECK(ran.out.find("RAM bytes left alone: none.") != std::string::npos);
  CHECK(bench.deliver({"--as", "boot-floppy", "--clock", "image", "-o", "b.img"}).code == 2);
}

TEST_CASE("deliver does not write over its input, nor over a file without --force") {
  const Bench bench;
  CHECK(bench.deliver({"--as", "dos-program", "-o", "new.bin", "--force"}).code == 2);
  CHECK(bench.bytes("new.bin") == at_64_bytes());
  bench.put("MEND.COM", "old");
  CHECK(bench.deliver({"--as", "dos-program", "-o", "MEND.COM"}).code == 2);
  CHECK(bench.get("MEND.COM") == "old");
}

TEST_CASE("deliver names what is missing or misspelt") {
  const Bench bench;
  CHECK(complains(bench.deliver({"--as", "floppy", "-o", "x"}), "--as", "boot-floppy"));
  CHECK(complains(bench.deliver({"--as", "dos-program"}), "-o", "needed"));
  CHECK(complains(bench.run({"deliver", "--as", "dos-program", "-o", "x"}), "DUMP", "needed"));
  CHECK(complains(bench.deliver({"--as", "basic-listing", "--when-lost", "-o", "x"}), "--when-lost",
                  "boot floppy"));
  CHECK(complains(bench.deliver({"--as", "debugger-script", "--clock", "ask", "-o", "x"}),
                  "--clock", "ask"));
}

TEST_CASE("the list of ways has sizes and keystrokes, for people and machines") {
  const Bench bench;
  const Ran list = bench.run({"deliver", "--list"});
  CHECK(list.code == 0);
  CHECK(list.out.find("keyboard-program") != std::string::npos);
  const auto json = nlohmann::json::parse(bench.run({"deliver", "--list", "--json"}).out);
  REQUIRE(json["ways"].size() == 5);
  CHECK(json["ways"][4]["way"] == "keyboard-program");
  CHECK(json["ways"][4]["keystrokes"] == 525);
  CHECK(json["ways"][4]["captures"] == true);
}

TEST_CASE("deliver and capture speak JSON") {
  const Bench bench;
  const auto delivered = nlohmann::json::parse(
      bench.deliver({"--as", "keyboard-program", "-o", "m.txt", "--json"}).out);
  CHECK(delivered["way"] == "keyboard-program");
  CHECK(delivered["layout"] == "at");
  CHECK(delivered["sound"] == true);
  CHECK(delivered["left_alone"].empty());
  CHECK(delivered["sheet"].is_string());
  const auto captured = nlohmann::json::parse(
      bench.run({"capture", "--as", "dos-program", "-o", "ROWS.COM", "--json"}).out);
  CHECK(captured["bytes"] == bench.get("ROWS.COM").size());
}

TEST_CASE("capture makes a reader for every way") {
  const Bench bench;
  for (const std::string way :
       {"boot-floppy", "dos-program", "debugger-script", "basic-listing", "keyboard-program"})
    CHECK(bench.run({"capture", "--as", way, "-o", way + ".out"}).code == 0);
  CHECK(bench.get("keyboard-program.out").find("FIRST SEE WHETHER A DISK TAKES") !=
        std::string::npos);
  CHECK(bench.run({"capture", "--as", "dos-program", "--size", "100", "-o", "s"}).code == 2);
  CHECK_FALSE(bench.has("s"));
}

TEST_CASE("what goes to standard output has it alone, the report stands aside without colour") {
  const Bench bench;
  const Ran out = bench.deliver({"--as", "debugger-script", "-o", "-", "--color", "always"});
  CHECK(out.code == 0);
  CHECK(out.out.find("What to do") == std::string::npos);
  CHECK(out.err.find("What to do\n") != std::string::npos);
  CHECK(out.err.find('\x1b') == std::string::npos);
  const Ran in = bench.run({"capture", "--as", "debugger-script", "-o", "-", "--color", "always"});
  CHECK(in.code == 0);
  CHECK(in.out.ends_with("g=100\r\nd200l80\r\nq\r\n"));
  CHECK(in.err.find("What to do\n") != std::string::npos);
  CHECK(in.err.find('\x1b') == std::string::npos);
  CHECK(bench.files() == 1);
}

TEST_CASE("capture names what is missing, and reads as many bytes as it is told") {
  const Workbench bench;
  CHECK(complains(bench.run({"capture", "--as", "dos-program"}), "-o", "it is needed"));
  for (const char* size : {"64", "128"})
    CHECK(bench.run({"capture", "--as", "basic-listing", "--size", size, "-o", size}).code == 0);
  CHECK(bench.get("64") != bench.get("128"));
}

TEST_CASE("with a part deliver says what it changes, and the keyboard's file is the whole sheet") {
  const Bench bench;
  const Ran early =
      bench.deliver({"--as", "keyboard-program", "-o", "m.txt", "--part", "MC146818A"});
  CHECK(early.code == 0);
  CHECK(early.out.find("For the MC146818A\n  -  The MC146818A has its cell on the board") !=
        std::string::npos);
  CHECK(bench.get("m.txt").find("FIRST SEE WHETHER A DISK TAKES") != std::string::npos);
  CHECK(bench.get("m.txt").find("MEND C") != std::string::npos);
  // The same as a page: the ^ and < of the first line stand in it as text.
  CHECK(bench.deliver({"--as", "keyboard-program", "-o", "m.html"}).code == 0);
  CHECK(bench.get("m.html").starts_with("<!doctype html>"));
  CHECK(bench.get("m.html").find("P^P_OO$&lt; 9rr9m!um") != std::string::npos);
  CHECK(bench.get("m.html").find("    COPY CON A\n") != std::string::npos);
  const Ran potted = bench.deliver({"--as", "dos-program", "-o", "m.com", "--part", "DS12887A"});
  CHECK(potted.out.find("clears its RAM when pin 21 is pulled low") != std::string::npos);
  CHECK(complains(bench.deliver({"--as", "dos-program", "-o", "n.com", "--part", "DS1"}), "--part",
                  "there is no part"));
}
