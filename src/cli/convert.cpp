#include <fmt/format.h>
#include <utility>

#include "base/error.h"
#include "base/text.h"
#include "cli/commands.h"
#include "cli/dump_source.h"
#include "cli/layout_file.h"
#include "cli/layout_home.h"
#include "cli/output.h"
#include "cli/print.h"
#include "desk/confession.h"
#include "forms/form_table.h"
#include "make/undo.h"
#include "terminal/columns.h"
#include "terminal/heading.h"

namespace rtcmend {

namespace {

struct ConvertOptions {
  DumpSource source;
  std::vector<std::string> undone;  ///< what to take back, in order
  Output output;
  Voice voice;
};

Form target_form(const Output& output) {
  if (const auto form = told_form(output)) return *form;
  refuse("--to", "the output's name does not tell the form, so it is needed",
         "--to " + list_of_forms());
}

/// `layout`: the one that was named, by whose word it is told.
void tell(const ConvertOptions& given, const Dump& dump, Form form,
          const std::optional<Layout>& layout) {
  const std::vector<std::string> warnings =
      layout ? layout->when_writing : std::vector<std::string>();
  Json json;
  json["output"] = given.output.path;
  json["size"] = dump.image.size();
  json["from"] = name(dump.form);
  json["form"] = name(form);
  json["unknown"] = dump.image.unknown();
  json["notes"] = warnings;
  std::string text =
      fmt::format("Wrote {}: {} bytes, from {} to {}.\n", printable(given.output.path),
                  dump.image.size(), name(dump.form), name(form));
  text += layout_mark(layout);
  for (const std::string& warning : warnings) text += "Note: " + hanging(warning, 6) + "\n";
  if (form != Form::json)
    for (const Finding& said : confessed(dump.confession))
      text += "Note: " + hanging(said.text + " Only the json form can say so.", 6) + "\n";
  if (given.voice.json) text = to_line(json) + "\n";
  if (given.output.path == "-")
    print_aside(text);
  else
    print(text);
}

/// --size without --at says how large the chip is that the bytes are for: what a larger one has
/// beyond is unknown, and what a smaller one lacks is dropped.
Dump read_for_size(DumpSource source) {
  if (source.listing.size.empty() || !source.listing.at.empty()) return read_dump_from(source);
  const std::size_t size = chip_size_named("--size", std::exchange(source.listing.size, {}));
  Dump dump = read_dump_from(source);
  dump.image = dump.image.with_size(size);
  return dump;
}

int convert(const ConvertOptions& given) {
  Inputs inputs = inputs_of(given.source);
  check_output(given.output, inputs);
  Dump dump = read_for_size(given.source);
  for (const std::string& what : given.undone) dump.image = undo(dump.image, what);
  const Form form = target_form(given.output);
  std::string layout_id = dump.layout;
  std::optional<Layout> layout;
  if (!given.source.layout.empty()) {
    layout = layout_for(dump, spoken_name(given.source.path), given_layout(given.source.layout),
                        shelf_at_hand());
    layout_id = layout->id;
    inputs.add(layout->files);
  }
  write_image({dump.image, form, layout_id, dump.note, dump.confession}, given.output, inputs);
  tell(given, dump, form, layout);
  return exit_good;
}

}  // namespace

Action set_up_convert(Options& options) {
  auto given = std::make_shared<ConvertOptions>();
  options.word(given->source.path, "DUMP", "the dump; - is standard input");
  add_form(options, given->source);
  options.value(given->source.layout, "--layout", "ID|FILE",
                "no layout is needed; given, its name goes into the json form");
  options.values(given->undone, "--undo", "WHAT",
                 "take back what happened to the whole dump: shift=N, nibbles or bit-order");
  add_output(options, given->output);
  add_voice(options, given->voice);
  options.example("rtcmend convert photo.txt --form rows -o dump.bin");
  options.example("rtcmend convert dump.bin --to c-array -o -");
  options.example("rtcmend convert dump.bin --undo shift=1 -o straight.bin");
  options.example("rtcmend convert small.bin --size 128 --fill 00 -o large.bin");
  return [given] { return convert(*given); };
}

}  // namespace rtcmend
