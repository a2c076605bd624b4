// The firmware in a simulated microcontroller, with a chip and wires that watch every edge.
#include <array>
#include <catch2/catch.hpp>

#include "base/files.h"
#include "base/text.h"
#include "board/work.h"
#include "simulated/exchange.h"
#include "test_bench.h"

using namespace rtcmend;
using namespace rtcmend::test;

TEST_CASE("a chip of 128 bytes is read as it is, and nothing on its bus is out of order") {
  TestBench bench;
  bench.fill(7);
  const ChipRead read = bench.read();
  CHECK(read.image.size() == 128);
  CHECK(bench.ram_of(read.image) == bench.ram());
  CHECK(read.remarks.empty());
  CHECK(bench.bench.accesses() > 240);
  bench.switch_off();
  CHECK(bench.violations().empty());
  CHECK_FALSE(bench.bench.has_supply());
}

TEST_CASE("a chip of 64 bytes is known by its mirrored half") {
  ClockChipTraits traits;
  traits.size = 64;
  TestBench bench(traits);
  bench.fill(8);
  const ChipRead read = bench.read();
  CHECK(read.image.size() == 64);
  CHECK(bench.ram_of(read.image) == bench.ram());
  CHECK(bench.violations().empty());
}

TEST_CASE("the clock is read whole at any moment of its second") {
  for (int i = 0; i < 12; ++i) {
    TestBench bench;
    bench.bench.chip.put({0x59, 0x00, 0x59, 0x00, 0x23, 0x00, 0x04, 0x31, 0x12, 0x30, 0x26});
    // The first second ends after 1.000 s; the reading is made to fall around it.
    bench.board.run_milliseconds(595 + i * 0.4);
    const ChipRead read = bench.read();
    const bool before = read.image[0] == 0x59;
    CHECK(read.image[2] == (before ? 0x59 : 0x00));
    CHECK(read.image[9] == (before ? 0x30 : 0x31));
    CHECK(bench.violations().empty());
  }
}

TEST_CASE("an image is written, read back, and the clock set to the half second") {
  TestBench bench;
  bench.fill(1);
  const ChipRead before = bench.read();
  Image wanted = Image(random_bytes(128, 99));
  wanted.set(0x0A, 0x26);
  wanted.set(0x0B, 0x02);
  // 2031-05-14 09:30:00 when the board's time begins.
  const long long start = seconds_since_1980({2031, 5, 14, 9, 30, 0}) * 1'000'000;
  const WallClock wall = [&](Moment at) { return start + at.count(); };
  ChipRead after;
  bench.exchange.run([&](Talk& talk) { after = write_chip(talk, {wanted, wall}, before); });
  CHECK(bench.ram_of(after.image) == bench.ram_of(wanted));
  std::vector<ClockEdge> edges;
  bench.exchange.run([&](Talk& talk) { edges = watch_clock(talk, Moment{3'000'000}); });
  REQUIRE(edges.size() >= 2);
  const long long at = edges[1].at.count() % 1'000'000;
  CHECK((at < 30'000 || at > 970'000));
  const auto seconds = (edges[1].at.count() + 500'000) / 1'000'000;
  CHECK(edges[1].second == seconds / 10 * 16 + seconds % 10);
  bench.switch_off();
  CHECK(bench.violations().empty());
}

TEST_CASE("without a clock to set, the chip's time goes on, in the way that the image wants") {
  TestBench bench;
  const ChipRead before = bench.read();
  Image wanted = Image(random_bytes(128, 5));
  wanted.set(0x0A, 0x66);
  wanted.set(0x0B, 0x06);  // binary, 24 hours
  ChipRead after;
  bench.exchange.run([&](Talk& talk) { after = write_chip(talk, {wanted, {}}, before); });
  CHECK(after.image[0x0A] == 0x26);  // the oscillator on, whatever the image says
  CHECK(after.image[0x0B] == 0x06);
  CHECK(after.image[4] == 9);
  CHECK(after.image[2] == 30);
  CHECK(after.image[9] == 31);
  CHECK(bench.violations().empty());
}

TEST_CASE("alarms of the image go into the chip though its own time goes on") {
  TestBench bench;
  bench.bench.chip.put({0x00, 0x12, 0x30, 0x34, 0x09, 0x05, 0x04, 0x14, 0x05, 0x31});
  const ChipRead before = bench.read();
  Image wanted = before.image;
  wanted.set(0x01, 0x00);
  wanted.set(0x03, 0x45);
  wanted.set(0x05, 0x06);
  ChipRead after;
  bench.exchange.run([&](Talk& talk) { after = write_chip(talk, {wanted, {}}, before); });
  CHECK(after.image[1] == 0x00);
  CHECK(after.image[3] == 0x45);
  CHECK(after.image[5] == 0x06);
  CHECK(after.image[2] == 0x30);
  CHECK(after.image[4] == 0x09);
  CHECK(after.image[9] == 0x31);
  CHECK(bench.violations().empty());
}

TEST_CASE("alarms go into a chip whose time is noise, and the noise stays") {
  TestBench bench;
  bench.bench.chip.put({0x6F, 0x72, 0xBB, 0x04, 0x4D, 0x96, 0xDF, 0x28, 0x71, 0xBA});
  const ChipRead before = bench.read();
  Image wanted = before.image;
  for (const Address at : std::array<Address, 3>{1, 3, 5}) wanted.set(at, 0x00);
  ChipRead after;
  bench.exchange.run([&](Talk& talk) { after = write_chip(talk, {wanted, {}}, before); });
  for (const Address at : std::array<Address, 3>{1, 3, 5}) CHECK(after.image[at] == 0x00);
  CHECK(after.image[8] == 0x71);
  CHECK(after.image[9] == 0xBA);
  CHECK(bench.violations().empty());
}

TEST_CASE("the supply is taken away and comes back by itself, and a sound chip keeps its bytes") {
  TestBench bench;
  bench.fill(3);
  const ChipRead before = bench.read();
  ChipRead after;
  bench.exchange.run([&](Talk& talk) { after = rest_chip(talk, 30, 128); });
  CHECK(bench.ram_of(after.image) == bench.ram_of(before.image));
  CHECK(bench.exchange.now() > Moment{30'000'000});
  bench.switch_off();
  CHECK(bench.violations().empty());
}

TEST_CASE("a program that is gone leaves the chip off after half a minute") {
  TestBench bench;
  bench.read();
  CHECK(bench.bench.has_supply());
  bench.board.run_milliseconds(29'000);
  CHECK(bench.bench.has_supply());
  bench.board.run_milliseconds(1'500);
  CHECK_FALSE(bench.bench.has_supply());
  CHECK(bench.violations().empty());
}

TEST_CASE("a request that comes once more is answered once more and not done once more") {
  TestBench bench;
  bench.bench.chip.put(
      std::vector<std::uint8_t>{0, 0, 0x30, 0, 9, 0, 4, 0x14, 5, 0x31, 0x26, 2, 0xC0, 0x80});
  int cut = 0;
  bench.exchange.meddle = [&](std::string&, std::string& in) {
    // Of the first answer with 14 bytes, the line feed is lost.
    if (const auto end = in.find('\n'); end != std::string::npos && cut == 3) in.erase(end, 1);
    if (in.find('\n') != std::string::npos || cut == 3) ++cut;
  };
  CHECK(bench.read().image[0x0C] == 0xC0);  // reading it clears it: done twice, it would be 00
}

namespace {

std::vector<std::string> violations_with(const BenchFaults& faults) {
  TestBench bench({}, faults);
  bench.read();
  bench.switch_off();
  return bench.violations();
}

}  // namespace

TEST_CASE("the supply takes longer to fall than tF with its 10 uF, and not without them") {
  CHECK(violations_with({}).empty());
  BenchFaults faults;
  faults.microfarads = 0.1;  // the small one alone: 4.5 V to 4.0 V in 55 us
  const auto found = violations_with(faults);
  REQUIRE(found.size() == 1);
  CHECK(found[0].find("the supply falls too fast") != std::string::npos);
}

TEST_CASE("the firmware has less than 6 KB") {
  std::size_t size = 0;
  const std::string hex = read_whole(RTCMEND_FIRMWARE);
  for (const std::string_view line : lines(hex))
    if (line.size() > 9 && line.substr(7, 2) == "00")  // Intel HEX: a record of data
      size += std::stoul(std::string(line.substr(1, 2)), nullptr, 16);
  CHECK(size > 2000);
  CHECK(size < 6144);
}
