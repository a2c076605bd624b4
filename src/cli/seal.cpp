#include "make/seal.h"

#include "cli/commands.h"
#include "cli/dump_source.h"
#include "cli/finish.h"

namespace rtcmend {

namespace {

struct SealOptions {
  DumpSource source;
  Finish finish;
};

int seal_dump(const SealOptions& given) {
  const auto inputs = inputs_of(given.source);
  check_output(given.finish.output, inputs);
  const Opened opened = open_dump(given.source);
  return write_and_report(made_from(opened, seal(opened.dump.image, *opened.layout), inputs),
                          given.finish);
}

}  // namespace

Action set_up_seal(Options& options) {
  auto given = std::make_shared<SealOptions>();
  add_dump(options, given->source);
  add_again(options, given->source);
  add_finish(options, given->finish);
  options.example("rtcmend seal dump.bin -o sealed.bin");
  return [given] { return seal_dump(*given); };
}

}  // namespace rtcmend
