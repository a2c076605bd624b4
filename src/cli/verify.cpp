#include "cli/commands.h"
#include "cli/dump_source.h"
#include "cli/part_option.h"
#include "cli/print.h"
#include "judge/health.h"
#include "repair/suspects.h"
#include "render/diagnosis_json.h"
#include "terminal/diagnosis.h"
#include "terminal/show.h"

namespace rtcmend {

namespace {

struct VerifyOptions {
  DumpSource source;
  std::string part;
  std::string again;  ///< a second dump of the same chip; empty = none
  Voice voice;
};

/// What a second dump of the same chip tells about the reading.
std::vector<Finding> unsteady(const VerifyOptions& given, const Image& first) {
  if (given.again.empty()) return {};
  return compare_reads(first, read_dump_from(given.again, "").image);
}

int verify(const VerifyOptions& given) {
  check_part(given.part);
  Judged judged(given.source);
  judged.examination = with_part(std::move(judged.examination), given.part,
                                 judged.opened.dump.image, judged.opened.layout);
  const Image& image = judged.opened.dump.image;
  judged.examination = with_findings(std::move(judged.examination), unsteady(given, image));
  const auto blamed = suspects(image, judged.opened.layout);
  if (given.voice.json) {
    Json json = verify_json(judged.card());
    json["suspects"] = suspects_json(blamed);
    print_json(json);
  } else {
    const Ink ink = given.voice.ink();
    print(verify_text(judged.card(), ink) + suspects_text(blamed, given.source.path, ink));
  }
  return judged.examination.sound ? exit_good : exit_bad;
}

}  // namespace

Action set_up_verify(Options& options) {
  auto given = std::make_shared<VerifyOptions>();
  add_dump(options, given->source);
  add_part(options, given->part);
  options.value(given->again, "--again", "DUMP2",
                "a second dump of the same chip: says which bytes were not read steadily");
  add_voice(options, given->voice);
  options.example("rtcmend verify dump.bin && echo fine");
  options.example("rtcmend verify dump.bin --part DS12887A");
  options.example("rtcmend verify first.bin --again second.bin");
  return [given] { return verify(*given); };
}

}  // namespace rtcmend
