#include "terminal/show.h"

#include "cli/commands.h"
#include "cli/dump_source.h"
#include "cli/print.h"
#include "terminal/code.h"
#include "terminal/map.h"

namespace rtcmend {

namespace {

struct ShowOptions {
  DumpSource source;
  bool map = false, code = false, registers = false;
  Voice voice;
};

std::string picture(const Card& card, const ShowOptions& given) {
  if (given.code) return code_picture(card, given.voice.ink());
  if (given.map) return map_text(card, given.voice.ink());
  const auto detail = given.registers ? RegisterDetail::every_bit : RegisterDetail::a_line_each;
  return show_text(card, detail, given.voice.ink());
}

int show(const ShowOptions& given) {
  const Opened opened = open_dump(given.source);
  if (given.voice.json)
    print_json(show_json(card_of(opened)));
  else
    print(picture(card_of(opened), given));
  return opened.examination.sound ? exit_good : exit_bad;
}

}  // namespace

Action set_up_show(Options& options) {
  auto given = std::make_shared<ShowOptions>();
  add_dump(options, given->source);
  options.flag(given->map, "--map", "the bytes as a picture of what each belongs to");
  options.flag(given->code, "--code", "the bytes as a code for the camera of a phone, two for 128");
  options.flag(given->registers, "--registers", "every bit of registers A to D, with its meaning");
  add_voice(options, given->voice);
  options.example("rtcmend show dump.bin");
  options.example("rtcmend show dump.txt --layout at --map");
  options.example("rtcmend show mended.bin --code");
  return [given] { return show(*given); };
}

}  // namespace rtcmend
