#include "upkeep/history.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/error.h"
#include "base/files.h"
#include "base/folder.h"
#include "base/text.h"
#include "cli/commands.h"
#include "cli/dump_source.h"
#include "cli/layout_file.h"
#include "cli/layout_home.h"
#include "cli/print.h"
#include "judge/health.h"
#include "render/history_json.h"
#include "terminal/history.h"

namespace rtcmend {

namespace {

struct HistoryOptions {
  std::string folder, layout;
  Voice voice;
};

/// A file as it was read: an item, and the dump for settling the layout.
struct Leaf {
  HistoryItem item;
  std::optional<Dump> dump;
};

bool named_as_note(const std::string& name) {
  const std::string small = lower(name);
  for (const std::string_view ending : {".md", ".note", ".notes"})
    if (small.ends_with(ending)) return true;
  return false;
}

/// Not a part of the history, though it may lie in the folder: the clock's log, a printed sheet.
bool of_another_kind(const std::string& name) {
  const std::string small = lower(name);
  for (const std::string_view ending : {".log", ".html", ".img", ".jpg", ".png", ".pdf", ".com"})
    if (small.ends_with(ending)) return true;
  return false;
}

DateTime file_date(long long modified) {
  constexpr long long from_1970_to_1980 = 315'532'800;
  return from_seconds_since_1980(std::max(0LL, modified - from_1970_to_1980));
}

Leaf read_leaf(const FolderEntry& file) {
  Leaf leaf;
  leaf.item.name = file.name;
  const auto date = date_in_name(file.name);
  leaf.item.dated_by_name = date.has_value();
  leaf.item.date = date ? *date : file_date(file.modified);
  try {
    if (named_as_note(file.name)) {
      leaf.item.note = read_whole(file.path);
      return leaf;
    }
    leaf.dump = read_dump_from(file.path, {});
    leaf.item.image = leaf.dump->image;
  } catch (const Error& error) {
    if (error.refusal() == Refusal::file_system) throw;
    leaf.item.problem = error.message();
  }
  return leaf;
}

std::vector<Leaf> leaves_of(const std::string& folder) {
  std::vector<Leaf> leaves;
  for (const FolderEntry& file : files_in(folder))
    if (!of_another_kind(file.name)) leaves.push_back(read_leaf(file));
  return leaves;
}

/// One layout for all: the one given, else the first that any dump points to clearly, the latest
/// dump asked first.
Layout layout_of(std::vector<Leaf> leaves, const std::string& folder, const std::string& given,
                 const Shelf& shelf) {
  if (!given.empty()) return layout_named(given);
  std::sort(leaves.begin(), leaves.end(),
            [](const Leaf& a, const Leaf& b) { return a.item.date > b.item.date; });
  std::optional<Error> first_refusal;
  for (const Leaf& leaf : leaves) {
    if (!leaf.dump) continue;
    try {
      return layout_for(*leaf.dump, leaf.item.name, std::nullopt, shelf);
    } catch (const Error& error) {
      if (!first_refusal) first_refusal = error;
    }
  }
  if (first_refusal) throw *first_refusal;
  refuse(folder, "it holds no dump that could be read",
         "keep a machine's dumps there, named by their dates: 2031-05-14.bin");
}

int tell_history(const HistoryOptions& given) {
  const Shelf& shelf = shelf_at_hand();
  std::vector<Leaf> leaves = leaves_of(given.folder);
  const Layout layout = layout_of(leaves, given.folder, given.layout, shelf);
  std::vector<HistoryItem> items;
  items.reserve(leaves.size());
  for (Leaf& leaf : leaves) {
    if (leaf.dump) {
      const Dump dump = once(*leaf.dump, layout, shelf);
      leaf.item.image = dump.image;
      if (dump.image.size() >= layout.size)
        leaf.item.reading = reading_findings(judge_as_read(dump, layout, {}, shelf));
      leaf.item.provenance = provenance_of(dump, {}, std::nullopt);
    }
    items.push_back(std::move(leaf.item));
  }
  const History told = history(std::move(items), layout);
  if (given.voice.json)
    print_json(history_json(told, layout));
  else
    print(history_text(told, {given.folder, given.layout}, layout, given.voice.ink()));
  return told.latest_is_good ? exit_good : exit_bad;
}

}  // namespace

Action set_up_history(Options& options) {
  auto given = std::make_shared<HistoryOptions>();
  options.word(given->folder, "FOLDER",
               "a machine's dumps, their names beginning with their dates (2031-05-14.bin), and "
               "notes (.md, .note)");
  options.value(given->layout, "--layout", "ID|FILE",
                "the layout to read them by; identified when left out");
  add_voice(options, given->voice);
  options.example("rtcmend history machines/fennel");
  return [given] { return tell_history(*given); };
}

}  // namespace rtcmend
