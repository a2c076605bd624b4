// Passwords: whatever a command says must be the same for any password. Every command is run on two
// benches whose dumps differ in nothing but the secret, and must say the same on both, to the
// letter.
//
// What cannot be hidden is left out, as SECURITY.md says: files that carry the image and their
// lengths, a sum over secret and open bytes (the secrets here are permuted, which keeps their sum),
// and the typing sheet, which is a carrier.

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <filesystem>
#include <regex>
#include <set>

#include "cli/commands.h"
#include "support/sound_images.h"
#include "workbench.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

using Words = std::vector<std::string>;

/// What a password area holds in three dumps of one machine, each byte another one in each.
struct Secrets {
  std::array<std::uint8_t, 6> before, after, again;
};

constexpr Secrets one_user{{0x11, 0x22, 0x34, 0x48, 0x5D, 0x66},
                           {0x77, 0x6E, 0x59, 0x4A, 0x3B, 0x2C},
                           {0x91, 0x83, 0x75, 0x67, 0x52, 0xC1}};
constexpr Secrets other_user{{0x66, 0x5D, 0x11, 0x22, 0x48, 0x34},
                             {0x2C, 0x3B, 0x77, 0x59, 0x6E, 0x4A},
                             {0xC1, 0x52, 0x91, 0x75, 0x67, 0x83}};

using Bytes = std::vector<std::uint8_t>;

Bytes with_secret(Bytes bytes, const std::array<std::uint8_t, 6>& secret) {
  std::copy(secret.begin(), secret.end(), bytes.begin() + 0x38);
  return bytes;
}

/// A bench with dumps of one machine, from bytes without a secret.
struct Bench : Workbench {
  Bench(const std::string& layout, const Bytes& machine, const Secrets& secrets) {
    Bytes changed = machine;
    changed[0x10] = 0x44;  // the second floppy drive, too
    put_sealed("in.bin", layout, with_secret(machine, secrets.before));
    put_sealed("after.bin", layout, with_secret(changed, secrets.after));
    put_sealed("again.bin", layout, with_secret(changed, secrets.again));
    Bytes cleared = with_secret(machine, secrets.before);
    std::fill(cleared.begin() + 0x38, cleared.end(), std::uint8_t{0});
    put("cleared.bin", cleared);
    // One bit of an open byte lost besides, and everything lost.
    Bytes lost = with_secret(machine, secrets.after);
    lost[0x2B] ^= 0x04;
    put("lost.bin", lost);
    put("noise.bin", with_secret(noise(), secrets.after));
    std::filesystem::create_directory(path("dumps"));
    for (const char* name : {"in.bin", "after.bin"})
      put(std::string("dumps/2031-05-1") + (name[0] == 'i' ? "4 " : "5 ") + name, bytes(name));
  }

 private:
  void put_sealed(const std::string& name, const std::string& layout, const Bytes& bytes) {
    put("raw.bin", bytes);
    const Ran ran = run({"seal", "raw.bin", "--layout", layout, "-o", name});
    INFO(ran.err);
    REQUIRE(ran.code == 0);
  }
  static Bytes noise() {
    Bytes bytes(64);
    for (std::size_t i = 0; i < bytes.size(); ++i) bytes[i] = static_cast<std::uint8_t>(i * 97 + 5);
    return bytes;
  }
};

/// Command lines that read a dump; LAYOUT stands for the layout.
const std::vector<Words> lines_with_dumps{
    {"show", "in.bin", "--layout", "LAYOUT", "--map"},
    {"show", "in.bin", "--layout", "LAYOUT", "--json"},
    {"verify", "in.bin", "--layout", "LAYOUT", "--again", "cleared.bin"},
    {"verify", "after.bin", "--layout", "LAYOUT", "--again", "again.bin"},
    {"amend", "in.bin", "--layout", "LAYOUT", "--set", "FLAG=yes", "--again", "cleared.bin",
     "--unsound-anyway", "-o", "out7.bin"},
    {"verify", "in.bin", "--layout", "LAYOUT"},
    {"verify", "in.bin", "--layout", "LAYOUT", "--again", "cleared.bin", "--json"},
    {"verify", "lost.bin", "--layout", "LAYOUT"},
    {"verify", "noise.bin", "--layout", "LAYOUT", "--json"},
    {"identify", "in.bin"},
    {"identify", "in.bin", "--json"},
    {"amend", "in.bin", "--layout", "LAYOUT", "--set", "floppy_b=720K", "-o", "out.bin"},
    {"amend", "in.bin", "--layout", "LAYOUT", "--set", "FLAG=yes", "-o", "out2.bin"},
    {"amend", "in.bin", "--layout", "LAYOUT", "--set", "FLAG=yes", "-o", "out3.bin", "--json"},
    {"seal", "lost.bin", "--layout", "LAYOUT", "-o", "out4.bin"},
    {"seal", "lost.bin", "--layout", "LAYOUT", "-o", "out5.bin", "--json"},
    {"convert", "in.bin", "--to", "hex", "-o", "out6.hex"},
    {"compare", "in.bin", "after.bin", "--layout", "LAYOUT"},
    {"compare", "in.bin", "after.bin", "--layout", "LAYOUT", "--json"},
    {"compare", "in.bin", "cleared.bin", "--layout", "LAYOUT", "--after-power-off", "30m"},
    {"compare", "in.bin", "cleared.bin", "--layout", "LAYOUT", "--after-power-off", "30m",
     "--json"},
    {"compare", "in.bin", "lost.bin", "--layout", "LAYOUT", "--after-power-off", "30m"},
    {"compare", "in.bin", "lost.bin", "--layout", "LAYOUT", "--after-power-off", "30m", "--json"},
    {"compare", "in.bin", "noise.bin", "--layout", "LAYOUT", "--after-power-off", "30m"},
    {"compare", "in.bin", "after.bin", "--layout", "LAYOUT", "--after-power-off", "30m", "--again",
     "again.bin"},
    {"compare", "in.bin", "after.bin", "--layout", "LAYOUT", "--after-power-off", "30m", "--again",
     "again.bin", "--json"},
    {"deliver", "in.bin", "--layout", "LAYOUT", "--as", "boot-floppy", "-o", "f.img"},
    {"deliver", "in.bin", "--layout", "LAYOUT", "--as", "dos-program", "-o", "d.com", "--json"},
    {"deliver", "in.bin", "--layout", "LAYOUT", "--as", "debugger-script", "-o", "s.scr"},
    {"deliver", "in.bin", "--layout", "LAYOUT", "--as", "basic-listing", "-o", "b.bas"},
    {"forecast", "in.bin", "--layout", "LAYOUT"},
    {"explain", "163", "--dump", "in.bin", "--layout", "LAYOUT"},
    {"explain", "163", "--dump", "lost.bin", "--layout", "LAYOUT"},
    {"sheet", "in.bin", "--layout", "LAYOUT", "-o", "-"},
    {"sheet", "lost.bin", "--layout", "LAYOUT", "-o", "-"},
    {"page", "in.bin", "--layout", "LAYOUT", "-o", "page.html"},
    {"page", "in.bin", "--layout", "LAYOUT", "-o", "page2.html", "--json"},
    {"drives", "--capacity", "40M", "--layout", "LAYOUT"},
    {"history", "dumps", "--layout", "LAYOUT"},
    {"history", "dumps", "--layout", "LAYOUT", "--json"},
    {"audit", "dumps", "in.bin", "lost.bin"},
    {"audit", "dumps", "in.bin", "lost.bin", "--json"},
    {"solve", "in.bin", "after.bin", "again.bin", "--width", "16", "--kind", "sum"},
    {"trace", "--step", "b=none:in.bin", "--step", "b=1.44M:after.bin", "--layout", "LAYOUT"},
    {"trace", "--step", "b=none:in.bin", "--step", "b=1.44M:after.bin", "--layout", "LAYOUT", "-o",
     "-", "--json"},
    {"trace", "--idle", "after.bin", "--idle", "again.bin", "--step", "b=none:in.bin", "--step",
     "b=1.44M:after.bin", "--layout", "LAYOUT"},
    {"drift", "in.bin", "--at", "2031-05-14T09:30:00", "after.bin", "--at", "2031-05-15T09:30:00"},
};

/// Commands that read no dump, and board, which tells of one by compare's and retention's words and
/// needs a board (tests/firmware).
const std::set<std::string> reads_no_secret{"board", "compose", "capture",    "layouts",
                                            "chips", "plan",    "completion", "manual"};

/// A carrier's length depends on what it carries, where a byte is typed with as few digits as it
/// has.
std::string without_sizes(const std::string& text) {
  static const std::regex sizes(R"(\d+ bytes, \d+ keystrokes)");
  return std::regex_replace(text, sizes, "");
}

Words for_layout(Words line, const std::string& layout, const std::string& flag) {
  for (std::string& word : line) {
    if (word == "LAYOUT") word = layout;
    if (word == "FLAG=yes") word = flag + "=yes";
  }
  return line;
}

void says_the_same(const std::string& layout, const std::string& flag, const Bytes& one_machine,
                   const Bytes& other_machine) {
  const Bench one(layout, one_machine, one_user), other(layout, other_machine, other_user);
  for (const Words& line : lines_with_dumps) {
    const Words words = for_layout(line, layout, flag);
    std::string told;
    for (const std::string& word : words) told += word + " ";
    INFO(told);
    const Ran first = one.run(words), second = other.run(words);
    CHECK(first.code >= 0);
    CHECK(first.code != 2);
    CHECK(first.code == second.code);
    CHECK(without_sizes(first.out) == without_sizes(second.out));
    CHECK(first.err == second.err);
  }
}

/// 13h bit 0 is the CRC class's "power-on password is set" (RBIL61 C0017).
Bytes crc_machine() {
  Bytes bytes = crc_64_bytes();
  bytes[0x13] = 0x41;
  bytes[0x3E] = 0x5A, bytes[0x3F] = 0xA5;
  return bytes;
}

/// 34h bits 7 and 6 are the password's switches, the others are open (RBIL61 C0037, C0038).
Bytes options_machine(std::uint8_t switches) {
  Bytes bytes = at_64_bytes();
  bytes[0x34] = switches;
  return bytes;
}

}  // namespace

TEST_CASE("every command is among those that are tried with another secret, or reads none") {
  std::set<std::string> tried = reads_no_secret;
  for (const Words& line : lines_with_dumps) tried.insert(line[0]);
  std::set<std::string> known;
  for (const Command& command : commands()) known.insert(std::string(command.name));
  CHECK(tried == known);
}

TEST_CASE("no command's output depends on the bytes of a password in the CRC class",
          "[long][count]") {
  says_the_same("crc+slots-19", "typematic_fast", crc_machine(), crc_machine());
}

TEST_CASE("no command's output depends on the bytes of a password beside open bits of a byte",
          "[long][count]") {
  // The two switches trade places, and another byte that the sum covers makes up for it.
  Bytes one = options_machine(0x40 | 0x03), other = options_machine(0x80 | 0x03);
  one[0x36] = 0x40, other[0x36] = 0x40;
  says_the_same("at+sum-34-3d+disks-1b+repeat-11+options-13+options-2d+shadow-34", "shadow_c8000",
                one, one);
  Bytes secret_one = one, secret_other = other;
  secret_one[0x34] = 0x43, secret_other[0x34] = 0x83;
  const Bench bench_one("at+sum-34-3d+disks-1b+repeat-11+options-13+options-2d+shadow-34",
                        secret_one, one_user);
  const Bench bench_other("at+sum-34-3d+disks-1b+repeat-11+options-13+options-2d+shadow-34",
                          secret_other, one_user);
  const Words amending{
      "amend",    "in.bin",
      "--layout", "at+sum-34-3d+disks-1b+repeat-11+options-13+options-2d+shadow-34",
      "--set",    "shadow_c8000=yes",
      "-o",       "out.bin"};
  const std::string told = bench_one.run(amending).out, other_told = bench_other.run(amending).out;
  const auto line_34 = [](const std::string& text) {
    const auto at = text.find("  34  ");
    return text.substr(at, text.find('\n', at) - at);
  };
  CHECK(line_34(told) == line_34(other_told));
  CHECK(line_34(told).starts_with("  34  ** -> **"));
}
