#include "cli/commands.h"
#include "cli/dump_source.h"
#include "cli/part_option.h"
#include "cli/print.h"
#include "render/show.h"

namespace rtcmend {

namespace {

struct VerifyOptions {
  DumpSource source;
  std::string part;
  Voice voice;
};

int verify(const VerifyOptions& given) {
  check_part(given.part);
  Judged judged(given.source);
  judged.examination = with_part(std::move(judged.examination), given.part,
                                 judged.opened.dump.image, judged.opened.layout);
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
  add_part(options, given->part);
  add_voice(options, given->voice);
  options.example("rtcmend verify dump.bin && echo fine");
  options.example("rtcmend verify dump.bin --part DS12887A");
  return [given] { return verify(*given); };
}

}  // namespace rtcmend
