#include "terminal/chips.h"

#include "cli/commands.h"
#include "cli/print.h"
#include "layout/parts_catalogue.h"
#include "render/chips_json.h"

namespace rtcmend {

namespace {

struct ChipsOptions {
  std::string part;
  Voice voice;
};

int chips(const ChipsOptions& given) {
  const auto parts = given.part.empty() ? known_parts() : std::vector<Part>{need_part(given.part)};
  if (given.voice.json)
    print_json(chips_json(parts));
  else if (given.part.empty())
    print(chips_text(parts, given.voice.ink()));
  else
    print(chip_text(parts.front(), given.voice.ink()));
  return exit_good;
}

}  // namespace

Action set_up_chips(Options& options) {
  auto given = std::make_shared<ChipsOptions>();
  options.optional_word(given->part, "PART",
                        "the number on a part's back: all about it, what it replaces and what "
                        "replaces it; left out, the whole family");
  add_voice(options, given->voice);
  options.example("rtcmend chips");
  options.example("rtcmend chips DS12887A");
  return [given] { return chips(*given); };
}

}  // namespace rtcmend
