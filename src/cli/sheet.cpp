#include "sheet/sheet.h"

#include <fmt/format.h>

#include "base/error.h"
#include "base/files.h"
#include "base/text.h"
#include "cli/clock_option.h"
#include "cli/commands.h"
#include "cli/dump_source.h"
#include "cli/part_option.h"
#include "cli/print.h"
#include "desk/change.h"
#include "layout/parts_catalogue.h"
#include "render/words.h"
#include "terminal/sheet.h"
#include "upkeep/cell_plan.h"

namespace rtcmend {

namespace {

struct SheetOptions {
  DumpSource source;
  std::string output;
  std::string title;
  std::string note;
  std::string part;  ///< the chip's number; empty = not said
  bool text = false, cell = false, sources = false;
  bool force = false;
  Voice voice;
};

void tell(const SheetOptions& given, const Opened& opened) {
  const Examination& examination = opened.examination;
  Json json;
  json["output"] = given.output;
  json["layout"] = opened.layout->id;
  json["sound"] = examination.sound;
  std::string text =
      fmt::format("Wrote {}: a bench sheet, layout {}.\n{}\n", printable(given.output),
                  opened.layout->id, verdict(examination.standing, examination.findings));
  if (given.voice.json) text = to_line(json) + "\n";
  if (given.output == "-")
    print_aside(text);
  else
    print(text);
}

/// The commonest cell on the part, or on a potted one when none is named; nothing unless asked for.
std::optional<CellPlan> cell_plan_for(const SheetOptions& given) {
  if (!given.cell) return std::nullopt;
  if (given.part.empty()) return usual_plan(local_now());
  return usual_plan(local_now(), part_given(given.part));
}

/// A sheet is for looking at what is there: one that is not sound gets its sheet too.
int make_sheet(const SheetOptions& given) {
  if (given.output.empty()) refuse("-o", "it is needed, and was not given", "-o sheet.html");
  WriteRules rules{given.force, inputs_of(given.source)};
  check_output(given.output, rules);
  check_part(given.part);
  Opened opened = open_dump(given.source);
  const Layout& layout = *opened.layout;
  rules.inputs.add(layout.files);
  const Image& image = opened.dump.image;
  opened.examination = with_part(std::move(opened.examination), given.part, image, layout);
  const Sheet sheet{given.title,
                    given.note,
                    card_of(opened),
                    forecast(opened.examination, layout),
                    open_suspects(image, layout, opened.reading, opened.provenance),
                    cell_plan_for(given),
                    given.sources};
  write_whole(given.output, given.text ? sheet_text(sheet) : sheet_html(sheet), rules);
  tell(given, opened);
  return opened.examination.sound ? exit_good : exit_bad;
}

}  // namespace

Action set_up_sheet(Options& options) {
  auto given = std::make_shared<SheetOptions>();
  add_dump(options, given->source);
  options.value(given->output, "-o,--output", "OUT", "where to write; - is standard output");
  options.value(given->title, "--title", "TEXT",
                "what the machine is called; the dump's name when left out");
  options.value(given->note, "--note", "TEXT",
                "about the machine, for its folder; the dump's own note when left out");
  options.flag(given->text, "--text", "for a printer of plain text, instead of a page");
  options.flag(given->cell, "--cell", "the next cell and the work of changing it as well");
  options.flag(
      given->sources, "--sources",
      "names and notes of fields, every check and register, and where each fact comes from");
  add_again(options, given->source);
  add_part(options, given->part);
  options.flag(given->force, "--force", "replace OUT when it exists");
  add_voice(options, given->voice);
  options.example("rtcmend sheet dump.bin -o sheet.html");
  options.example("rtcmend sheet dump.bin --text -o sheet.txt");
  options.example("rtcmend sheet dump.bin --title Bramble --note \"cell changed\" -o bramble.html");
  return [given] { return make_sheet(*given); };
}

}  // namespace rtcmend
