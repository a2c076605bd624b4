#include "upkeep/drift.h"

#include <fmt/format.h>

#include "base/append.h"
#include "base/error.h"
#include "base/files.h"
#include "base/text.h"
#include "chip/registers.h"
#include "cli/clock_option.h"
#include "cli/commands.h"
#include "cli/dump_source.h"
#include "cli/layout_file.h"
#include "cli/layout_home.h"
#include "cli/print.h"
#include "render/drift_json.h"
#include "terminal/columns.h"
#include "terminal/drift.h"
#include "terminal/heading.h"
#include "upkeep/drift_log.h"

namespace rtcmend {

namespace {

struct DriftOptions {
  std::vector<std::string> readings, times;
  DumpSource source;  ///< form and layout of the readings that are dumps
  bool daylight_saving = false;
  std::string log;
  Voice voice;
};

/// The century, where a layout says it: the one given, else the one that the bytes point to.
std::optional<int> century_of(const Dump& dump, const std::string& name,
                              const std::string& layout) {
  const Shelf& shelf = shelf_at_hand();
  if (const auto given = given_layout(layout))
    return century_in(layout_for(dump, name, given, shelf), dump.image);
  try {
    return century_in(layout_for(dump, name, std::nullopt, shelf), dump.image);
  } catch (const Error&) {
    return std::nullopt;  // the clock alone is asked for: no layout is needed to read it
  }
}

[[noreturn]] void refuse_clock(const std::string& name, const ClockReading& clock) {
  if (!clock.known || !clock.mode)
    refuse(name, "its clock bytes are not known",
           "a dump with 00h to 09h and 0Bh, or the time as typed");
  refuse(name,
         clock.time ? fmt::format("its clock says {}, and the years of a PC are 1980 to 2099",
                                  to_iso(*clock.time))
                    : "its clock says no date and time: " + clock.faults.front().what,
         "a clock that makes no sense has lost its power: set it, and begin again");
}

ClockSample sample_of_dump(const std::string& path, const DumpSource& source) {
  DumpSource one = source;
  one.path = path;
  const Dump dump = read_dump_from(one);
  const std::string name = spoken_name(path);
  const ClockReading clock = read_clock(dump.image, century_of(dump, name, source.layout));
  if (!clock.time || !can_be_set(*clock.time)) refuse_clock(name, clock);
  ClockSample sample;
  sample.shown = *clock.time;
  sample.daylight_saving = dump.image.known(reg::b) && decode_b(dump.image[reg::b]).daylight_saving;
  sample.running = clock.running;
  return sample;
}

/// A word of the command line: a time as typed, or a dump.
ClockSample sample_of(const std::string& word, const DriftOptions& given) {
  if (const auto typed = parse_iso(trim(word)))
    return {*typed, {}, given.daylight_saving, std::nullopt};
  return sample_of_dump(word, given.source);
}

std::vector<ClockSample> samples_in(const DriftOptions& given) {
  if (given.readings.size() != given.times.size())
    refuse("--at",
           fmt::format("{} came with {}", counted(given.readings.size(), "reading"),
                       counted(given.times.size(), "reference time")),
           "one --at TIME for each reading, in the same order: what a good clock showed then");
  std::vector<ClockSample> samples;
  for (std::size_t i = 0; i < given.readings.size(); ++i) {
    ClockSample sample = sample_of(given.readings[i], given);
    sample.reference = parse_clock(given.times[i], "--at");
    samples.push_back(sample);
  }
  return samples;
}

std::vector<ClockSample> logged_in(const DriftOptions& given) {
  if (given.log.empty()) return {};
  check_log(given.log);
  if (!exists_already(given.log)) return {};
  return parse_drift_log(read_whole(given.log), given.log);
}

void add_to_log(const std::string& log, const std::vector<ClockSample>& samples) {
  if (log.empty() || samples.empty()) return;
  std::string lines;
  for (const ClockSample& sample : samples) lines += drift_log_line(sample) + "\n";
  append_lines(log, lines);
}

int tell(const Drift& found, const Voice& voice) {
  if (voice.json)
    print_json(drift_json(found));
  else
    print(drift_text(found, voice.ink()));
  const bool good =
      found.verdict == DriftVerdict::within || found.verdict == DriftVerdict::at_the_limit;
  return good && found.events.empty() ? exit_good : exit_bad;
}

int tell_first(const ClockSample& sample, const Voice& voice) {
  Drift alone;
  alone.samples = {sample};
  if (voice.json)
    print_json(drift_json(alone));
  else
    print(first_reading_text(sample));
  return exit_good;
}

int measure(const DriftOptions& given) {
  std::vector<ClockSample> all = logged_in(given);
  const std::vector<ClockSample> fresh = not_logged_yet(all, samples_in(given));
  all.insert(all.end(), fresh.begin(), fresh.end());
  if (all.empty())
    refuse("drift", "it needs readings of the clock",
           "rtcmend drift first.bin second.bin --at TIME --at TIME");
  if (all.size() == 1 && !given.log.empty()) {
    add_to_log(given.log, fresh);
    return tell_first(all.front(), given.voice);
  }
  if (!given.voice.json) print(layout_mark(given_layout(given.source.layout)));
  const Drift found = drift(all);  // before anything is logged: what it refuses stays out
  add_to_log(given.log, fresh);
  return tell(found, given.voice);
}

}  // namespace

Action set_up_drift(Options& options) {
  auto given = std::make_shared<DriftOptions>();
  options.optional_words(given->readings, "READING",
                         "a dump, or a time as the chip showed it (2031-05-14T09:30:00)");
  options.values(given->times, "--at", "TIME",
                 "what a good clock showed at that moment; one for each reading, in their order");
  options.value(given->log, "--log", "FILE",
                "keep the readings in this file and take its earlier ones in, one JSON object a "
                "line");
  options.flag(given->daylight_saving, "--daylight-saving",
               "for typed times: register B has DSE on (a dump says so itself)");
  // Its own --at is a time.
  add_listing(options, given->source);
  add_layout(options, given->source);
  add_voice(options, given->voice);
  options.example("rtcmend drift a.bin b.bin --at 2031-05-01T12:00 --at 2031-05-31T12:00");
  options.example("rtcmend drift dump.bin --at now --log clock.log");
  return [given] { return measure(*given); };
}

}  // namespace rtcmend
