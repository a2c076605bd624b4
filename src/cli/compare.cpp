#include "judge/compare.h"

#include "base/error.h"
#include "cli/commands.h"
#include "cli/dump_source.h"
#include "cli/print.h"
#include "cli/units.h"
#include "render/retention_json.h"
#include "terminal/compare.h"
#include "terminal/heading.h"
#include "terminal/retention.h"

namespace rtcmend {

namespace {

struct CompareOptions {
  DumpSource wanted;
  std::string found, found_form;
  std::string after_power_off, again;
  Voice voice;
};

void check_words(const CompareOptions& given) {
  if (given.wanted.path == "-" && given.found == "-")
    refuse("compare", "only one of the two can be standard input", "name a file for the other");
  if (!given.again.empty() && given.after_power_off.empty())
    refuse("--again", "it goes with --after-power-off", "--after-power-off 30m");
  if (given.again == "-")
    refuse("--again", "it needs a file, not standard input", "name a file for it");
}

/// What the time without power did; nothing when it was not asked.
std::optional<Retention> retention_in(const CompareOptions& given, const Opened& wanted,
                                      const Image& found) {
  if (given.after_power_off.empty()) return std::nullopt;
  PowerOff test{wanted.dump.image, found, std::nullopt,
                parse_duration(given.after_power_off, "--after-power-off")};
  if (!given.again.empty()) test.again = read_dump_from(given.again, given.found_form).image;
  return retention(test, *wanted.layout);
}

bool kept(const std::optional<Retention>& without_power) {
  return !without_power || without_power->what == Retained::everything;
}

int compare_dumps(const CompareOptions& given) {
  check_words(given);
  const Opened wanted = open_dump(given.wanted);
  const Dump found = read_dump_from(given.found, given.found_form);
  const Comparison comparison = compare(wanted.dump.image, found.image, *wanted.layout);
  const auto without_power = retention_in(given, wanted, found.image);
  if (given.voice.json) {
    Json json = compare_json(comparison, *wanted.layout);
    if (without_power) json["retention"] = retention_json(*without_power);
    add_layout(wanted.layout.get(), json);
    print_json(json);
  } else {
    print(layout_mark(*wanted.layout) +
          compare_text(comparison, *wanted.layout, given.voice.ink()));
    if (without_power) print(retention_text(*without_power, given.voice.ink()));
  }
  return comparison.equal && kept(without_power) ? exit_good : exit_bad;
}

}  // namespace

Action set_up_compare(Options& options) {
  auto given = std::make_shared<CompareOptions>();
  options.word(given->wanted.path, "WANTED", "the image that was to be written");
  options.word(given->found, "FOUND", "what was read back from the chip");
  add_reading(options, given->wanted);
  options.value(given->found_form, "--found-form", "FORM",
                "how FOUND is written down; detected when left out");
  options.value(given->after_power_off, "--after-power-off", "TIME",
                "the chip was without power for so long (30m, 12h) before FOUND was read: what was "
                "lost, why, and what to measure next");
  options.value(given->again, "--again", "DUMP",
                "FOUND's chip read a second time, to tell a fault of the bus from lost bytes");
  add_voice(options, given->voice);
  options.example("rtcmend compare new.bin readback.txt");
  options.example("rtcmend compare new.bin next-day.txt --after-power-off 12h");
  return [given] { return compare_dumps(*given); };
}

}  // namespace rtcmend
