#include "cli/board_jobs.h"

#include <fmt/format.h>
#include <iostream>

#include "base/append.h"
#include "base/error.h"
#include "base/files.h"
#include "base/system.h"
#include "base/text.h"
#include "board/rate.h"
#include "chip/cautions.h"
#include "chip/clock.h"
#include "chip/registers.h"
#include "cli/board_at_port.h"
#include "cli/commands.h"
#include "cli/part_option.h"
#include "cli/units.h"
#include "desk/ready.h"
#include "judge/compare.h"
#include "layout/library.h"
#include "render/retention_json.h"
#include "terminal/board.h"
#include "terminal/compare.h"
#include "terminal/heading.h"
#include "terminal/retention.h"
#include "upkeep/drift_log.h"

namespace rtcmend {

namespace {

constexpr int longest_rest = 65'535;  // two bytes on the wire
constexpr int shortest_watch = 12;

std::optional<std::size_t> size_of(const BoardOptions& given) {
  if (given.size.empty()) return std::nullopt;
  if (given.size == "64") return Image::small_size;
  if (given.size == "128") return Image::large_size;
  refuse("--chip-size", fmt::format("\"{}\" is not 64 or 128", given.size), "--chip-size 128");
}

void check_before_opening(const BoardOptions& given) {
  static_cast<void>(size_of(given));
  if (given.part.empty()) return;
  const BoardFit* fit = board_fit(part_given(given.part).name);
  if (fit == nullptr || !fit->fits)
    refuse(
        "--part",
        fmt::format("{} does not go on this board: {}", given.part,
                    fit == nullptr ? "nothing is known of it" : fit->why),
        at_bench(Advice{{"Take it off; the parts that fit", Act{Act::Kind::list, "board", {}}}}));
}

/// Reads and saves: nothing is offered before that.
ChipRead read_and_save(const BoardOptions& given, BoardAtPort& board, const Inputs& inputs) {
  ChipRead read;
  board.run("reading", [&](Talk& talk) { read = read_chip(talk, size_of(given)); });
  const Form form = told_form(given.output).value_or(Form::raw);
  write_image({read.image, form, {}, {}}, given.output, inputs);
  return read;
}

void tell_read(const BoardOptions& given, const ChipRead& read) {
  const std::string text = chip_read_text(read, given.output.path);
  if (given.output.path == "-" || given.voice.json)
    print_aside(text);
  else
    print(text);
}

Json read_json(const BoardOptions& given, const ChipRead& read) {
  return Json{{"what", given.what},
              {"output", given.output.path},
              {"size", read.image.size()},
              {"cell_low", !decode_d(read.image[reg::d]).valid},
              {"remarks", read.remarks}};
}

/// The layout given, else a clear one, else the chip's own bytes alone.
Layout layout_of(const BoardOptions& given, const Image& image) {
  if (const auto layout = given_layout(given.source.layout)) return *layout;
  const Dump dump{image, Form::raw, {}, {}};
  try {
    return layout_for(dump, "the chip", std::nullopt, Shelf());
  } catch (const Error&) {
    return built_in_layout("chip");
  }
}

/// What the bytes are judged by: on the bench no firmware writes, and every byte has to be kept.
Layout layout_of_all_bytes(const BoardOptions& given, const Image& image) {
  Layout layout = layout_of(given, image);
  layout.size = image.size();
  return layout;
}

/// The chip's bytes are saved before anything is done to it.
void check_saved_to(const BoardOptions& given, const Inputs& inputs = {}) {
  if (given.output.path.empty())
    refuse("-o", "what the chip holds is saved there first, and no name was given",
           "-o before.bin");
  check_output(given.output, inputs);
}

void need_consent(const BoardOptions& given) {
  if (given.yes) return;
  const std::string what =
      "The chip is read and saved, then left without power. With a weak cell it loses what it "
      "holds.";
  if (!system::errors_are_terminal())
    refuse("board hold",
           "it takes the chip's supply away, and a chip with a weak cell then loses all it holds: "
           "that needs "
           "consent",
           "--yes");
  print_aside(what + " Go on? [y/N] ");
  std::string answer;
  std::getline(std::cin, answer);
  if (lower(trim(answer)) != "y" && lower(trim(answer)) != "yes")
    refuse("board hold", "not done", "--yes, or answer y");
}

struct Written {
  Comparison comparison;
  ChipRead after;
};

void tell_written(const BoardOptions& given, const Opened& opened, const Written& written) {
  if (given.voice.json) {
    Json json = read_json(given, written.after);
    json["comparison"] = compare_json(written.comparison, *opened.layout);
    add_layout(opened.layout.get(), json["comparison"]);
    print_json(json);
    return;
  }
  print(layout_mark(*opened.layout) +
        compare_text(written.comparison, *opened.layout, given.voice.ink()));
}

/// What stands in the chip after a failure in the middle, said with the failure.
[[noreturn]] void refuse_half_written(const BoardOptions& given, const Error& error) {
  Advice advice{{"What the chip held before is in " + given.output.path, std::nullopt}};
  for (const AdviceStep& step : error.advice().steps()) advice.add(step);
  if (points_to_cautions(error.advice())) {
    advice = error.advice();
    advice.add({"What the chip held before is in " + given.output.path, std::nullopt});
  }
  throw Error(error.refusal(), error.where(),
              error.message() + "; the chip may hold a part of the image", advice);
}

}  // namespace

Json wiring_json(const BoardFit* part) {
  Json json{{"what", "wiring"}, {"wires", Json::array()}, {"parts", Json::array()}};
  for (const BenchWire& wire : bench_wires())
    json["wires"].push_back(Json{
        {"board", wire.board}, {"chip", wire.chip}, {"line", wire.line}, {"beside", wire.beside}});
  for (const BoardFit& fit : board_fits())
    if (part == nullptr || part == &fit)
      json["parts"].push_back(Json{{"part", fit.part}, {"fits", fit.fits}, {"why", fit.why}});
  return json;
}

int read_at_board(const BoardOptions& given) {
  check_before_opening(given);
  check_saved_to(given);
  BoardAtPort board(given.port);
  const ChipRead read = read_and_save(given, board, {});
  tell_read(given, read);
  if (given.voice.json && given.output.path != "-") print_json(read_json(given, read));
  return decode_d(read.image[reg::d]).valid ? exit_good : exit_bad;
}

int write_at_board(const BoardOptions& given) {
  check_before_opening(given);
  Inputs inputs = inputs_of(given.source);
  check_saved_to(given, inputs);
  const Opened opened = open_dump(given.source);
  inputs.add(opened.layout->files);
  Leaving leaving;
  if (!given.part.empty()) leaving.part = &part_given(given.part);
  const Readiness ready = readiness(opened.dump.image, *opened.layout, opened.reading, leaving);
  if (!given.unsound_anyway) need_ready(ready, opened.name);
  BoardAtPort board(given.port);
  const ChipRead before = read_and_save(given, board, inputs);
  tell_read(given, before);
  Written written;
  const ChipWrite what{opened.dump.image, given.set_clock ? wall_clock() : WallClock()};
  try {
    board.run("writing", [&](Talk& talk) { written.after = write_chip(talk, what, before); });
  } catch (const Error& error) {
    refuse_half_written(given, error);
  }
  const Image& wanted = opened.dump.image;
  // A larger chip keeps what lies beyond the image.
  written.comparison =
      compare(wanted, written.after.image.with_size(wanted.size()), *opened.layout);
  tell_written(given, opened, written);
  return written.comparison.equal && ready.is_ready() ? exit_good : exit_bad;
}

int hold_at_board(const BoardOptions& given) {
  check_before_opening(given);
  check_saved_to(given);
  const long long seconds = parse_duration(given.off.empty() ? "30m" : given.off, "--off");
  if (seconds > longest_rest)
    refuse("--off", "the board counts 18 hours at most",
           "unplug it for longer, and use rtcmend compare --after-power-off");
  need_consent(given);
  BoardAtPort board(given.port);
  const ChipRead before = read_and_save(given, board, {});
  tell_read(given, before);
  ChipRead after, again;
  const std::size_t size = before.image.size();
  board.run("without power",
            [&](Talk& talk) { after = rest_chip(talk, static_cast<int>(seconds), size); });
  board.run("reading", [&](Talk& talk) { again = read_chip(talk, size); });
  const Layout layout = layout_of_all_bytes(given, before.image);
  const Retention found =
      retention({before.image, after.image, again.image, seconds, bench_slack}, layout);
  if (given.voice.json) {
    Json json = read_json(given, before);
    json["retention"] = retention_json(found);
    print_json(json);
  } else {
    print(layout_mark(layout) + retention_text(found, given.voice.ink()));
  }
  return found.what == Retained::everything ? exit_good : exit_bad;
}

int clock_at_board(const BoardOptions& given) {
  check_before_opening(given);
  const long long seconds = parse_duration(given.length.empty() ? "5m" : given.length, "--for");
  if (seconds < shortest_watch)
    refuse("--for", "too short to tell a rate: the ends of ten seconds have to be seen",
           "--for 2m, or longer");
  if (!given.log.empty()) check_log(given.log);
  const WallClock wall = wall_clock();
  BoardAtPort board(given.port);
  ChipRead read;
  std::vector<ClockEdge> edges;
  Moment seen{0};
  board.run("watching the clock", [&](Talk& talk) {
    static_cast<void>(read_chip(talk, size_of(given)));
    edges = watch_clock(talk, Moment{seconds * 1'000'000});
    read = read_chip(talk, size_of(given));
    seen = talk.now();
  });
  const ClockReading clock = read_clock(read.image, std::nullopt);
  ClockOnBench bench{clock.time, from_seconds_since_1980(wall(seen) / 1'000'000),
                     clock_rate(edges)};
  if (!given.log.empty() && clock.time && can_be_set(*clock.time)) {
    ClockSample sample{*clock.time, bench.reference, false, clock.running};
    sample.daylight_saving = decode_b(read.image[reg::b]).daylight_saving;
    append_lines(given.log, drift_log_line(sample) + "\n");
  }
  if (given.voice.json) {
    Json json{{"what", given.what}, {"reference", to_iso(bench.reference)}};
    json["shown"] = bench.shown ? Json(to_iso(*bench.shown)) : Json(nullptr);
    json["ppm"] = bench.rate ? Json(bench.rate->ppm) : Json(nullptr);
    json["ppm_uncertainty"] = bench.rate ? Json(bench.rate->uncertainty) : Json(nullptr);
    json["edges"] = edges.size();
    print_json(json);
  } else {
    print(clock_on_bench_text(bench));
  }
  return bench.shown && bench.rate ? exit_good : exit_bad;
}

}  // namespace rtcmend
