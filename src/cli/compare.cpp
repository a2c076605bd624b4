#include "judge/compare.h"

#include "base/error.h"
#include "cli/commands.h"
#include "cli/dump_source.h"
#include "cli/print.h"
#include "render/compare.h"

namespace rtcmend {

namespace {

struct CompareOptions {
  DumpSource wanted;
  std::string found, found_form;
  Voice voice;
};

int compare_dumps(const CompareOptions& given) {
  if (given.wanted.path == "-" && given.found == "-")
    refuse("compare", "only one of the two can be standard input", "name a file for the other");
  const Opened wanted = open_dump(given.wanted);
  const Dump found = read_dump_from(given.found, given.found_form);
  const Comparison comparison = compare(wanted.dump.image, found.image, wanted.layout);
  if (given.voice.json)
    print_json(compare_json(comparison, wanted.layout));
  else
    print(compare_text(comparison, wanted.layout, given.voice.ink()));
  return comparison.equal ? exit_good : exit_bad;
}

}  // namespace

Action set_up_compare(Options& options) {
  auto given = std::make_shared<CompareOptions>();
  options.word(given->wanted.path, "WANTED", "the image that was to be written");
  options.word(given->found, "FOUND", "what was read back from the chip");
  add_reading(options, given->wanted);
  options.value(given->found_form, "--found-form", "FORM",
                "how FOUND is written down; detected when left out");
  add_voice(options, given->voice);
  options.example("rtcmend compare new.bin readback.txt");
  return [given] { return compare_dumps(*given); };
}

}  // namespace rtcmend
