#include "terminal/layouts.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/error.h"
#include "base/files.h"
#include "base/folder.h"
#include "base/near_miss.h"
#include "base/text.h"
#include "cli/clock_option.h"
#include "cli/commands.h"
#include "cli/dump_source.h"
#include "cli/layout_file.h"
#include "cli/layout_home.h"
#include "cli/print.h"
#include "judge/layout_evidence.h"
#include "layout/library.h"
#include "layout/load.h"
#include "render/evidence_words.h"

namespace rtcmend {

namespace {

struct LayoutsOptions {
  std::string what, name;
  std::string as;                 ///< the id to keep it under; empty = its own
  std::vector<std::string> with;  ///< dumps to hold it against
  std::vector<std::string> more;  ///< those that stand behind one --with
  std::string output;  ///< where it goes with what they say in its notes; empty = nowhere
  bool force = false;
  Voice voice;
};

int list(const LayoutsOptions& given) {
  const std::vector<Layout>& own = shelf_at_hand().own();
  if (given.voice.json) {
    Json json = library_json(whole_classes(), whole_traits());
    json["own"] = layouts_json(own)["layouts"];
    print_json(json);
  } else {
    print(library_text(whole_classes(), whole_traits(), given.voice.ink()) +
          own_layouts_text(own, given.voice.ink()));
  }
  return exit_good;
}

/// As JSON a layout is a file, ready to be changed and given to --layout.
int print_layout(const LayoutsOptions& given) {
  if (given.voice.json)
    print(layout_source(given.name));
  else
    print(layout_text(layout_named(given.name), given.voice.ink()));
  return exit_good;
}

void tell(const Layout& layout, const std::string& text, const Voice& voice) {
  if (voice.json)
    print_json(layouts_json({layout}));
  else
    print(text);
}

std::string size_text(const Layout& layout) {
  return fmt::format("{}, for {} bytes or more, {} fields, {} checks.\n", printable(layout.id),
                     layout.size, layout.fields.size(), layout.checks.size());
}

std::vector<Image> images_for(const Layout& layout, const std::vector<std::string>& dumps) {
  std::vector<Image> images;
  for (const std::string& path : dumps) {
    const Dump dump = once(read_dump_from(path, ""), layout, shelf_at_hand());
    need_room_for(layout, dump.image, spoken_name(path));
    images.push_back(dump.image);
  }
  return images;
}

/// The layout's own text with a sentence more in its notes: counts and a date, never bytes.
std::string with_note(const std::string& text, const std::string& note) {
  auto json = nlohmann::ordered_json::parse(text);
  json["notes"].push_back(note);
  return json.dump(2) + "\n";
}

int check_with_dumps(const LayoutsOptions& given, const Layout& layout) {
  WriteRules rules{given.force, Inputs(layout.files)};
  rules.inputs.add(given.with);
  if (!given.output.empty()) check_output(given.output, rules);
  const LayoutEvidence evidence = evidence_for(layout, images_for(layout, given.with));
  std::string text = fmt::format("{} is a good layout: {}{}", printable(given.name),
                                 size_text(layout), evidence_text(evidence));
  if (!given.output.empty()) {
    write_whole(given.output,
                with_note(read_whole(given.name), evidence_note(evidence, local_now())), rules);
    text += fmt::format("Wrote {}: the layout, with this in its notes.\n", printable(given.output));
  }
  if (given.voice.json) {
    Json json = layouts_json({layout});
    json["evidence"] = evidence_json(evidence);
    print_json(json);
  } else {
    print(text);
  }
  return evidence.is_unopposed() ? exit_good : exit_bad;
}

int check(const LayoutsOptions& given) {
  const Layout layout = layout_from_file(given.name);
  if (!given.with.empty()) return check_with_dumps(given, layout);
  tell(layout, fmt::format("{} is a good layout: {}", printable(given.name), size_text(layout)),
       given.voice);
  return exit_good;
}

std::string needed_home() {
  std::string home = layout_home();
  if (home.empty())
    refuse("layouts", "no folder is known to keep them in", "RTCMEND_LAYOUTS=FOLDER rtcmend ...");
  return home;
}

/// The file's text, with another id where one is given.
std::string text_to_keep(const LayoutsOptions& given) {
  std::string text = read_whole(given.name);
  if (given.as.empty()) return text;
  auto json = nlohmann::ordered_json::parse(text);  // it was loaded, so it is right
  json["layout"] = given.as;
  return json.dump(2) + "\n";
}

/// What it is worth is shown before it is taken: its notes, and what it warns of.
int add(const LayoutsOptions& given) {
  Layout layout = layout_from_file(given.name);
  if (layout.files.size() > 1)
    refuse(given.name, "it includes " + layout.files[1] + ", which would not come along",
           "put into it what it includes");
  const std::string text = text_to_keep(given);
  if (!given.as.empty()) layout = load_layout(text, "--as " + given.as, embedded_text);
  if (is_built_in(layout.id))
    refuse(given.name, fmt::format("a built-in layout has the id \"{}\"", printable(layout.id)),
           "--as my-board");
  const std::string home = needed_home(), path = home + "/" + layout.id + ".json";
  for (const KeptLayout& kept : read_layout_home().kept)
    if (kept.layout.id == layout.id && (!given.force || kept.path != path))
      refuse(kept.path, "a layout of this id is there",
             kept.path == path ? "--force to replace it, or --as my-board"
                               : "rtcmend layouts remove " + layout.id);
  const WriteRules rules{given.force, Inputs{given.name}};
  if (exists_already(home)) check_output(path, rules);
  make_folder(home);
  write_whole(path, text, rules);
  tell(layout,
       fmt::format("Added {}{}It is kept in {}; every command knows it by its id.\n",
                   size_text(layout), caveats_text(layout), printable(path)),
       given.voice);
  return exit_good;
}

int remove(const LayoutsOptions& given) {
  std::vector<std::string> ids;
  for (const KeptLayout& kept : read_layout_home().kept) {
    ids.push_back(kept.layout.id);
    if (kept.layout.id != given.name) continue;
    remove_file(kept.path);
    tell(kept.layout, fmt::format("Took away {}.\n", printable(kept.path)), given.voice);
    return exit_good;
  }
  refuse(given.name, "there is no layout of your own with this id",
         ids.empty() ? "rtcmend layouts list"
                     : "rtcmend layouts remove " + near_or_all(given.name, ids));
}

struct Subcommand {
  std::string_view word;
  int (*run)(const LayoutsOptions&);
  std::string_view example;  ///< empty: it takes no name
};

constexpr Subcommand subcommands[] = {
    {"list", list, ""},
    {"print", print_layout, "rtcmend layouts print at+sum-40-7d"},
    {"check", check, "rtcmend layouts check FILE"},
    {"add", add, "rtcmend layouts add FILE"},
    {"remove", remove, "rtcmend layouts remove ID"},
};

/// "check FILE --with A B" leaves B among the words.
LayoutsOptions sorted(LayoutsOptions given) {
  if (!given.more.empty() && given.with.empty())
    refuse("layouts", fmt::format("\"{}\" is one word too many", printable(given.more.front())),
           "rtcmend layouts check FILE --with DUMP DUMP ...");
  given.with.insert(given.with.end(), given.more.begin(), given.more.end());
  if (given.what != "check" && (!given.with.empty() || !given.output.empty()))
    refuse("layouts " + given.what, "it takes no dumps and writes no file",
           "rtcmend layouts check FILE --with DUMP DUMP ...");
  if (given.with.empty() && !given.output.empty())
    refuse("-o", "there is nothing to write without dumps", "--with DUMP DUMP ...");
  return given;
}

int layouts(const LayoutsOptions& given) {
  std::vector<std::string> words;
  for (const Subcommand& one : subcommands) {
    words.emplace_back(one.word);
    if (one.word != given.what) continue;
    if (given.name.empty() && !one.example.empty())
      refuse("layouts " + given.what, "it needs a name behind it", std::string(one.example));
    return one.run(given);
  }
  refuse("layouts", fmt::format("\"{}\" is not {}", printable(given.what), join(words, ", ")),
         "rtcmend layouts " + near_or_all(given.what, words));
}

}  // namespace

Action set_up_layouts(Options& options) {
  auto given = std::make_shared<LayoutsOptions>();
  options.word(given->what, "WHAT",
               "list: every built-in class with its traits, and your own layouts; print: one with "
               "its fields, values and checks; check: whether a layout file is right, and what "
               "dumps say for it (--with); add: keep "
               "one among your own, known to every command; remove: take that away again");
  options.optional_word(given->name, "ID|FILE",
                        "the layout to print or remove, or the file to check or add");
  options.optional_words(given->more, "DUMP", "further dumps behind --with");
  options.values(given->with, "--with", "DUMP",
                 "check: hold the layout against these dumps of its machine");
  options.value(given->output, "-o,--output", "OUT",
                "check --with: write the layout with what they say in its notes");
  options.value(given->as, "--as", "ID", "add: keep it under this id");
  options.flag(given->force, "--force", "replace your own layout of the same id, or OUT");
  add_voice(options, given->voice);
  options.example("rtcmend layouts print at+sum-40-7d");
  options.example("rtcmend layouts print at+sum-40-7d --json > mine.json");
  options.example("rtcmend layouts check mine.json --with dumps/*.bin");
  options.example("rtcmend layouts add draft.json --as my-board");
  return [given] { return layouts(sorted(*given)); };
}

}  // namespace rtcmend
