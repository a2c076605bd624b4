#include "cli/commands.h"
#include "cli/dump_source.h"
#include "cli/print.h"
#include "render/show.h"

namespace rtcmend {

namespace {

struct VerifyOptions {
  DumpSource source;
  Voice voice;
};

int verify(const VerifyOptions& given) {
  const Judged judged(given.source);
  if (given.voice.json)
    print_json(verify_json(judged.card()));
  else
    print(verify_text(judged.card(), given.voice.ink()));
  return judged.examination.sound ? exit_good : exit_bad;
}

}  // namespace

Action set_up_verify(Options& options) {
  auto given = std::make_shared<VerifyOptions>();
  add_dump(options, given->source);
  add_voice(options, given->voice);
  options.example("rtcmend verify dump.bin && echo fine");
  return [given] { return verify(*given); };
}

}  // namespace rtcmend
