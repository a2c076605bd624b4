#include "identify/identify.h"

#include "cli/commands.h"
#include "cli/dump_source.h"
#include "cli/layout_home.h"
#include "cli/print.h"
#include "judge/health.h"
#include "terminal/compare.h"
#include "terminal/findings.h"

namespace rtcmend {

namespace {

struct IdentifyOptions {
  DumpSource source;
  Voice voice;
};

int identify_dump(const IdentifyOptions& given) {
  const Dump dump = read_dump_from(given.source);
  const Identification found = identify(dump.image, shelf_at_hand().own());
  const std::vector<Finding> faults = health(dump.image, shelf_at_hand().about(dump.image));
  if (given.voice.json) {
    Json json = identify_json(found);
    json["findings"] = findings_json(faults);
    print_json(json);
  } else {
    const Ink ink = given.voice.ink();
    print(identify_text(found, ink) + findings_text(faults, ink));
  }
  return exit_good;
}

}  // namespace

Action set_up_identify(Options& options) {
  auto given = std::make_shared<IdentifyOptions>();
  options.word(given->source.path, "DUMP", "the dump; - is standard input");
  add_form(options, given->source);
  add_voice(options, given->voice);
  options.example("rtcmend identify dump.bin");
  return [given] { return identify_dump(*given); };
}

}  // namespace rtcmend
