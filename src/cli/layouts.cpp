#include "terminal/layouts.h"

#include <fmt/format.h>

#include "base/error.h"
#include "base/near_miss.h"
#include "base/text.h"
#include "cli/commands.h"
#include "cli/layout_file.h"
#include "cli/print.h"
#include "layout/library.h"

namespace rtcmend {

namespace {

struct LayoutsOptions {
  std::string what, name;
  Voice voice;
};

int list(const Voice& voice) {
  if (voice.json)
    print_json(library_json(whole_classes(), whole_traits()));
  else
    print(library_text(whole_classes(), whole_traits(), voice.ink()));
  return exit_good;
}

/// As JSON a layout is a file, ready to be changed and given to --layout.
int print_layout(const std::string& name, const Voice& voice) {
  if (voice.json)
    print(layout_source(name));
  else
    print(layout_text(layout_named(name), voice.ink()));
  return exit_good;
}

int check(const std::string& path, const Voice& voice) {
  const Layout layout = layout_from_file(path);
  if (voice.json)
    print_json(layouts_json({layout}));
  else
    print(fmt::format("{} is a good layout: {}, for {} bytes or more, {} fields, {} checks.\n",
                      printable(path), printable(layout.id), layout.size, layout.fields.size(),
                      layout.checks.size()));
  return exit_good;
}

int layouts(const LayoutsOptions& given) {
  if (given.what == "list") return list(given.voice);
  if (given.what != "print" && given.what != "check")
    refuse("layouts", fmt::format("\"{}\" is not list, print or check", given.what),
           "rtcmend layouts " + near_or_all(given.what, {"list", "print", "check"}));
  if (given.name.empty())
    refuse("layouts " + given.what, "it needs a name behind it",
           given.what == "print" ? "rtcmend layouts print at+sum-40-7d"
                                 : "rtcmend layouts check FILE");
  return given.what == "print" ? print_layout(given.name, given.voice)
                               : check(given.name, given.voice);
}

}  // namespace

Action set_up_layouts(Options& options) {
  auto given = std::make_shared<LayoutsOptions>();
  options.word(given->what, "WHAT",
               "list: every built-in class with its traits; print: one with its fields, values and "
               "checks; check: "
               "whether a layout file is right");
  options.optional_word(given->name, "ID|FILE", "the layout to print, or the file to check");
  add_voice(options, given->voice);
  options.example("rtcmend layouts print at+sum-40-7d");
  options.example("rtcmend layouts print at+sum-40-7d --json > mine.json");
  options.example("rtcmend layouts check mine.json");
  return [given] { return layouts(*given); };
}

}  // namespace rtcmend
