#include "codes/explain.h"

#include "base/error.h"
#include "cli/commands.h"
#include "cli/dump_source.h"
#include "cli/print.h"
#include "render/diagnosis_json.h"
#include "terminal/diagnosis.h"

namespace rtcmend {

namespace {

struct ExplainOptions {
  std::vector<std::string> codes;
  DumpSource source;
  Voice voice;
};

Explanation explained(const ExplainOptions& given) {
  if (given.source.path.empty()) {
    if (!given.source.layout.empty() || !given.source.form.empty())
      refuse("--dump", "--layout and --form need a dump", "rtcmend explain 161 163 --dump FILE");
    return explain(given.codes);
  }
  const Opened opened = open_dump(given.source);
  return explain(given.codes, opened.examination, *opened.layout);
}

int explain_codes(const ExplainOptions& given) {
  const Explanation explanation = explained(given);
  if (given.voice.json)
    print_json(explain_json(explanation));
  else
    print(explain_text(explanation, given.voice.ink()));
  return exit_good;
}

}  // namespace

Action set_up_explain(Options& options) {
  auto given = std::make_shared<ExplainOptions>();
  options.words(given->codes, "CODE", "the numbers on the screen: 161 163");
  options.value(given->source.path, "--dump", "DUMP", "tie them to what this dump shows");
  add_reading(options, given->source);
  add_voice(options, given->voice);
  options.example("rtcmend explain 161 163");
  options.example("rtcmend explain 162 --dump dump.bin");
  return [given] { return explain_codes(*given); };
}

}  // namespace rtcmend
