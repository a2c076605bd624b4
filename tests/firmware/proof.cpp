#include "proof.h"

#include <fmt/format.h>
#include <functional>

#include "base/error.h"
#include "board/firmware/protocol.h"
#include "test_bench.h"

namespace rtcmend::test {

namespace {

/// One bench with one firmware, and what there is to complain of.
struct Scene {
  const std::string& firmware;
  std::vector<std::string> complaints{};

  void want(bool holds, const std::string& what) {
    if (!holds) complaints.push_back(what);
  }
  void quiet(TestBench& bench, const std::string& when) {
    for (const std::string& violation : bench.violations())
      complaints.push_back(when + ": " + violation);
  }
};

BoardAnswer answer_to(TestBench& bench, const BoardRequest& request) {
  BoardAnswer answer;
  bench.exchange.run([&](Talk& talk) { answer = talk.ask(request); });
  return answer;
}

void reads(Scene& scene) {
  TestBench bench({}, {}, {}, scene.firmware);
  bench.fill(7);
  scene.want(bench.ram_of(bench.read().image) == bench.ram(), "other bytes read");
  bench.switch_off();
  scene.want(!bench.bench.has_supply(), "off, and the chip has its supply");
  bench.board.run_milliseconds(100);
  scene.quiet(bench, "a reading");
}

void writes(Scene& scene) {
  TestBench bench({}, {}, {}, scene.firmware);
  const ChipRead before = bench.read();
  Image wanted(random_bytes(128, 99));
  wanted.set(0x0B, 0x02);
  const long long start = seconds_since_1980({2031, 5, 14, 9, 30, 0}) * 1'000'000;
  ChipRead after;
  bench.exchange.run([&](Talk& talk) {
    after = write_chip(talk, {wanted, [&](Moment at) { return start + at.count(); }}, before);
  });
  scene.want(bench.ram() == bench.ram_of(wanted), "other bytes written");
  bench.switch_off();
  scene.quiet(bench, "a writing");
}

void reads_in_updates(Scene& scene) {
  for (int i = 0; i < 12; ++i) {
    TestBench bench({}, {}, {}, scene.firmware);
    bench.board.run_milliseconds(595 + i * 0.4);
    bench.read();
    scene.quiet(bench, "a reading around an update");
  }
}

void keeps_flags(Scene& scene) {
  TestBench bench({}, {}, {}, scene.firmware);
  bench.read();
  bench.bench.chip.put(0x0C, 0xC0);
  const auto flags = answer_to(bench, {BOARD_READ, {0x0C, 1}}).data;
  scene.want(flags == std::vector<std::uint8_t>{0xC0}, "0Ch is not what the first read gave");
}

void does_it_once(Scene& scene) {
  TestBench bench({}, {}, {}, scene.firmware);
  bench.read();
  bench.bench.chip.put(0x0C, 0xC0);
  bool lost = false;
  bench.exchange.meddle = [&](std::string&, std::string& in) {
    if (lost || in.find('\n') == std::string::npos) return;
    lost = true;
    in.erase(in.find('\n'), 1);
  };
  const auto flags = answer_to(bench, {BOARD_READ, {0x0C, 1}}).data;
  scene.want(flags == std::vector<std::uint8_t>{0xC0}, "what is asked again is done again");
}

void heeds_the_crc(Scene& scene) {
  TestBench bench({}, {}, {}, scene.firmware);
  bench.read();
  const auto before = bench.ram();
  bool changed = false;
  bench.exchange.meddle = [&](std::string& out, std::string&) {
    if (changed || out.size() < 12) return;
    changed = true;
    out[8] = out[8] == '1' ? '2' : '1';  // a digit of the byte that is written
  };
  answer_to(bench, {BOARD_WRITE, {0x20, 0x55}});
  auto after = bench.ram();
  scene.want(after[0x20 - 0x0E] == 0x55, "a changed digit is taken");
  after[0x20 - 0x0E] = before[0x20 - 0x0E];
  scene.want(after == before, "another byte is written");
}

void refuses_ranges(Scene& scene) {
  TestBench bench({}, {}, {}, scene.firmware);
  bench.read();
  for (const BoardRequest& request :
       {BoardRequest{BOARD_WRITE, {0x0D, 0x00}}, BoardRequest{BOARD_WRITE, {0x00, 0x00}},
        BoardRequest{BOARD_WRITE, {0x7F, 0x00, 0x00}}, BoardRequest{BOARD_READ, {0x7F, 2}},
        BoardRequest{BOARD_READ, {0x80, 1}}, BoardRequest{BOARD_READ, {0x00, 33}},
        BoardRequest{BOARD_READ, {0x00, 0}}, BoardRequest{BOARD_SET, {0x26}}})
    scene.want(answer_to(bench, request).status == BOARD_BAD_RANGE,
               "a range that it should not take");
  scene.want(answer_to(bench, {'Q'}).status == BOARD_BAD_COMMAND, "a command that is none");
  scene.quiet(bench, "bad ranges");
}

void says_what_is_not_taken(Scene& scene) {
  ClockChipTraits traits;
  traits.stubborn = 0x30;
  TestBench bench(traits, {}, {}, scene.firmware);
  bench.read();
  const auto ram = answer_to(bench, {BOARD_WRITE, {0x2F, 0x11, 0x22}});
  scene.want(ram.status == BOARD_NOT_TAKEN && ram.data[0] == 0x30 && ram.data[1] == 0x22,
             "a dead byte is not noticed");
  bench.bench.chip.traits().stubborn = 0x0A;
  scene.want(answer_to(bench, {BOARD_SET, {0x2F, 0x02}}).status == BOARD_NOT_TAKEN,
             "a register that does not take is not noticed");
}

void rests(Scene& scene) {
  TestBench bench({}, {}, {}, scene.firmware);
  bench.read();
  answer_to(bench, {BOARD_REST, {0, 10}});
  scene.want(!bench.bench.has_supply(), "at rest, and the chip has its supply");
  scene.want(answer_to(bench, {BOARD_READ, {0x20, 1}}).status == BOARD_BUSY, "a read at rest");
  bench.board.run_milliseconds(9'000);
  scene.want(!bench.bench.has_supply(), "the rest ends too early");
  bench.board.run_milliseconds(1'500);
  scene.want(bench.bench.has_supply(), "the rest does not end");
  bench.board.run_milliseconds(31'000);
  scene.want(!bench.bench.has_supply(), "the chip stays under power with nobody there");
  scene.quiet(bench, "a rest");
}

void waits_for_edges(Scene& scene) {
  TestBench bench({}, {}, {}, scene.firmware);
  std::vector<ClockEdge> edges;
  bench.exchange.run([&](Talk& talk) {
    read_chip(talk, {});
    edges = watch_clock(talk, Moment{3'500'000});
  });
  scene.want(edges.size() >= 3, "too few ends of seconds");
  for (std::size_t i = 1; i < edges.size(); ++i) {
    const auto between = (edges[i].at - edges[i - 1].at).count();
    scene.want(between > 999'000 && between < 1'001'000, "seconds that do not end by the second");
  }
  bench.bench.chip.traits().oscillator_dead = true;
  scene.want(answer_to(bench, {BOARD_EDGE, {}, Moment{2'500'000}}).status == BOARD_NO_EDGE,
             "a clock that stands is not noticed");
  scene.quiet(bench, "edges");
}

/// A fault of the bench, and what is said of it.
struct Trouble {
  BenchFaults faults;
  std::string words;
};

std::vector<Trouble> troubles() {
  std::vector<Trouble> all;
  const auto add = [&](const std::function<void(BenchFaults&)>& spoil, const std::string& words) {
    Trouble trouble{{}, words};
    spoil(trouble.faults);
    all.push_back(std::move(trouble));
  };
  add([](auto& is) { is.fitted = false; }, "no chip answers");
  add([](auto& is) { is.reversed = true; }, "the wrong way round");
  add([](auto& is) { is.rail_millivolts = 4200; }, "its own supply is 4.2");
  add([](auto& is) { is.fed_millivolts = 3000; }, "something else feeds it");
  add([](auto& is) { is.open = {ad0 + 3}; }, "nobody drives AD3 (pin 7)");
  add([](auto& is) { is.open = {rd}; }, "no chip answers");
  add([](auto& is) { is.open = {cs}; }, "no chip answers");
  add([](auto& is) { is.open = {as}; }, "the chip takes no addresses");
  add([](auto& is) { is.touching = {{0, 1}}; }, "AD0 (pin 4) and AD1 (pin 5) touch each other");
  add([](auto& is) { is.touching = {{3, rd}}; }, "AD3 (pin 7) and DS (pin 17) touch each other");
  add([](auto& is) { is.touching = {{cs, wr}}; }, "CS (pin 13) and R/W (pin 15) touch each other");
  add([](auto& is) { is.touching = {{rd, cs}}; }, "DS (pin 17) and CS (pin 13) touch each other");
  add([](auto& is) { is.touching = {{7, as}}; }, "AD7 (pin 11) touches AS");
  add([](auto& is) { is.grounded = {5}; }, "AD5 (pin 9) touches AS (pin 14) or ground");
  add([](auto& is) { is.to_plus = {6}; }, "AD6 (pin 10) does not go low");
  return all;
}

void names_faults(Scene& scene) {
  for (const Trouble& trouble : troubles()) {
    TestBench bench({}, trouble.faults, {}, scene.firmware);
    const auto before = bench.ram();
    const std::string said = bench.refusal();
    scene.want(said.find(trouble.words) != std::string::npos,
               fmt::format("\"{}\" instead of \"{}\"", said, trouble.words));
    scene.want(bench.ram() == before, "bytes change with: " + trouble.words);
    if (!trouble.faults.reversed) continue;
    scene.want(!bench.bench.has_supply(), "the supply stays at a chip the wrong way round");
    scene.quiet(bench, "a chip the wrong way round");
  }
}

void finds_every_touching_pair(Scene& scene) {
  for (int one = 0; one < line_count; ++one) {
    for (int other = one + 1; other < line_count; ++other) {
      BenchFaults faults;
      faults.touching = {{one, other}};
      TestBench bench({}, faults, {}, scene.firmware);
      const auto before = bench.ram();
      const std::string said = bench.refusal();
      scene.want(said.find("touch") != std::string::npos,
                 fmt::format("{} and {} touch, and \"{}\" is said", one, other, said));
      scene.want(bench.ram() == before, fmt::format("bytes change where {}, {} touch", one, other));
    }
  }
}

constexpr void (*scenes[])(Scene&) = {
    reads,        writes,          reads_in_updates, keeps_flags,
    does_it_once, heeds_the_crc,   refuses_ranges,   says_what_is_not_taken,
    rests,        waits_for_edges, names_faults,     finds_every_touching_pair};

}  // namespace

std::vector<std::string> complaints(const std::string& firmware) {
  for (const auto play : scenes) {
    Scene scene{firmware};
    try {
      play(scene);
    } catch (const Error& error) {
      scene.complaints.emplace_back(error.what());
    }
    if (!scene.complaints.empty()) return scene.complaints;
  }
  return {};
}

}  // namespace rtcmend::test
