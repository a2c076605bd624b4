#include "codes/explain.h"

#include "base/error.h"
#include "cli/commands.h"
#include "cli/dump_source.h"
#include "cli/print.h"
#include "render/diagnosis_json.h"
#include "terminal/diagnosis.h"
#include "terminal/heading.h"

namespace rtcmend {

namespace {

struct ExplainOptions {
  std::vector<std::string> codes;
  DumpSource source;
  Voice voice;
};

/// With the layout that the dump was judged by; null without a dump.
struct Explained {
  Explanation explanation;
  std::shared_ptr<const Layout> layout;
};

Explained explained(const ExplainOptions& given) {
  if (given.source.path.empty()) {
    if (!given.source.layout.empty() || !given.source.form.empty())
      refuse("--dump", "--layout and --form need a dump", "rtcmend explain 161 163 --dump FILE");
    return {explain(given.codes), nullptr};
  }
  const Opened opened = open_dump(given.source);
  return {explain(given.codes, opened.examination, *opened.layout), opened.layout};
}

int explain_codes(const ExplainOptions& given) {
  const auto [explanation, layout] = explained(given);
  if (given.voice.json) {
    Json json = explain_json(explanation);
    add_layout(layout.get(), json);
    print_json(json);
  } else {
    if (layout) print(layout_mark(*layout));
    print(explain_text(explanation, given.voice.ink()));
  }
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
