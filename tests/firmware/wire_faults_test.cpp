// The program's side against the simulated board with every fault at every step of a job: it ends
// right, or it says that it did not.
#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "base/error.h"
#include "board/firmware/protocol.h"
#include "test_bench.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

enum class Fault { lost, changed, added, line_lost, reset, port_gone };

/// Spoils one line of the conversation, counted in both directions.
class Spoiler {
 public:
  Spoiler(TestBench& bench, Fault fault, int line) : bench_(bench), fault_(fault), line_(line) {
    bench.exchange.meddle = [this](std::string& out, std::string& in) {
      spoil(out);
      spoil(in);
    };
  }
  bool done() const { return done_; }

 private:
  void spoil(std::string& way) {
    if (done_ || way.empty()) return;
    const bool ends = way.find('\n') != std::string::npos;
    if (seen_ != line_) {
      seen_ += ends ? 1 : 0;
      return;
    }
    switch (fault_) {
      case Fault::lost:
        way.erase(way.size() / 2, 1);
        break;
      case Fault::changed:
        way[way.size() / 2] = static_cast<char>(way[way.size() / 2] ^ 1);
        break;
      case Fault::added:
        way.insert(way.size() / 2, 1, '7');
        break;
      case Fault::line_lost:
        way.clear();
        if (!ends) return;  // until its end
        break;
      case Fault::reset:
        bench_.board.reset();
        break;
      case Fault::port_gone:
        bench_.exchange.gone = true;
        break;
    }
    done_ = true;
  }

  TestBench& bench_;
  Fault fault_;
  int line_, seen_ = 0;
  bool done_ = false;
};

struct Ending {
  bool reached = false;  ///< the line that was to be spoiled
  bool right = false;
  std::string refusal;
};

Ending read_with(Fault fault, int line) {
  TestBench bench;
  bench.fill(4);
  const auto ram = bench.ram();
  Spoiler spoiler(bench, fault, line);
  Ending ending;
  try {
    ending.right = TestBench::ram_of(bench.read().image) == ram;
  } catch (const Error& error) {
    ending.refusal = error.message();
  }
  ending.reached = spoiler.done();
  CHECK(bench.ram() == ram);
  CHECK(bench.violations().empty());
  return ending;
}

Ending write_with(Fault fault, int line) {
  TestBench bench;
  const ChipRead before = bench.read();
  Image wanted(random_bytes(128, 9));
  wanted.set(0x0B, 0x02);
  Spoiler spoiler(bench, fault, line);
  Ending ending;
  try {
    bench.exchange.run([&](Talk& talk) {
      const WallClock wall = [](Moment at) { return 1'000'000'000'000'000 + at.count(); };
      write_chip(talk, {wanted, wall}, before);
    });
    ending.right = bench.ram() == TestBench::ram_of(wanted);
  } catch (const Error& error) {
    ending.refusal = error.message();
  }
  ending.reached = spoiler.done();
  CHECK(bench.violations().empty());
  return ending;
}

void check_every(Ending (*job)(Fault, int), Fault fault) {
  int line = 0;
  for (;; ++line) {
    const Ending ending = job(fault, line);
    if (!ending.reached) break;
    INFO("fault " << static_cast<int>(fault) << " in line " << line << ": " << ending.refusal);
    CHECK((ending.right || !ending.refusal.empty()));
    if (fault == Fault::reset || fault == Fault::port_gone) continue;
    CHECK(ending.right);  // one line may be lost: it is asked for again
  }
  CHECK(line > 15);
}

}  // namespace

TEST_CASE("a reading with any fault of a character ends right, and changes no byte", "[long]") {
  for (const Fault fault : {Fault::lost, Fault::changed, Fault::added})
    check_every(read_with, fault);
}

TEST_CASE("a reading with a line lost, a reset or the port gone ends right or is refused",
          "[long]") {
  for (const Fault fault : {Fault::line_lost, Fault::reset, Fault::port_gone})
    check_every(read_with, fault);
}

TEST_CASE("a writing with a character lost at any line ends right", "[long]") {
  check_every(write_with, Fault::lost);
}

TEST_CASE("a writing with a character changed at any line ends right", "[long]") {
  check_every(write_with, Fault::changed);
}

TEST_CASE("a writing with a character added at any line ends right", "[long]") {
  check_every(write_with, Fault::added);
}

TEST_CASE("a writing with a line lost ends right", "[long]") {
  check_every(write_with, Fault::line_lost);
}

TEST_CASE("a writing in which the board is reset ends right or is refused", "[long]") {
  check_every(write_with, Fault::reset);
}

TEST_CASE("a writing in which the port goes ends right or is refused", "[long]") {
  check_every(write_with, Fault::port_gone);
}

TEST_CASE("a board that was reset in the middle says so, and the port that is gone too") {
  CHECK(read_with(Fault::reset, 6).refusal ==
        "it was reset in the middle, so that the chip was without supply; the work is void");
  CHECK(read_with(Fault::port_gone, 6).refusal == "it answers no more; the work is void");
}

namespace {

/// Writes and reads one random image over a bad wire. 0 = a wrong byte was taken for right, 1 = it
/// was said that it did not go, 2 = right.
int over_a_bad_wire(unsigned seed, std::size_t size) {
  ClockChipTraits traits;
  traits.size = size;
  TestBench bench(traits, {}, {0.0025, 0.0025, 0, seed});
  Image wanted(random_bytes(size, seed));
  wanted.set(0x0B, 0x02);
  try {
    const ChipRead before = bench.read();
    ChipRead after;
    bench.exchange.run([&](Talk& talk) { after = write_chip(talk, {wanted, {}}, before); });
    const ChipRead again = bench.read();
    CHECK(bench.violations() == std::vector<std::string>{});
    return before.image.size() == size && bench.ram() == TestBench::ram_of(wanted) &&
                   bench.ram_of(after.image) == bench.ram() &&
                   bench.ram_of(again.image) == bench.ram()
               ? 2
               : 0;
  } catch (const Error& error) {
    UNSCOPED_INFO(error.what());
    return 1;
  }
}

void count_images(unsigned count) {
  int ends[3] = {0, 0, 0};
  for (unsigned seed = 1; seed <= count; ++seed)
    ++ends[over_a_bad_wire(seed, seed % 2 == 0 ? 64 : 128)];
  CHECK(ends[0] == 0);
  WARN(
      fmt::format("{} images, one character in 200 lost or changed: {} right, {} refused, {} wrong",
                  count, ends[2], ends[1], ends[0]));
}

}  // namespace

TEST_CASE("20 random images go over a wire that spoils one character in 200 without a wrong byte",
          "[long]") {
  int right = 0;
  for (unsigned seed = 1; seed <= 20; ++seed) {
    const int end = over_a_bad_wire(seed, seed % 2 == 0 ? 64 : 128);
    CHECK(end != 0);
    right += end == 2;
  }
  CHECK(right >= 18);
}

TEST_CASE("1,000 random images go over a wire that spoils one character in 200", "[.figures]") {
  count_images(1000);
}
