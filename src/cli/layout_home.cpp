#include "cli/layout_home.h"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fmt/format.h>

#include "base/error.h"
#include "base/files.h"
#include "base/folder.h"
#include "base/text.h"
#include "cli/layout_file.h"
#include "cli/print.h"
#include "layout/library.h"
#include "terminal/columns.h"

namespace rtcmend {

namespace {

/// More layouts of one's own nobody has; a folder of thousands is something else.
constexpr std::size_t most_layouts = 200;

std::string told(const char* variable) {
  const char* value = std::getenv(variable);
  return value != nullptr ? value : "";
}

std::vector<FolderEntry> layout_files_in(const std::string& folder, LayoutHome& home) {
  if (folder.empty() || !exists_already(folder)) return {};
  std::vector<FolderEntry> files;
  try {
    files = files_in(folder);
  } catch (const Error& error) {
    home.left_out.push_back(error.what());
  }
  std::erase_if(files, [](const FolderEntry& file) { return !file.name.ends_with(".json"); });
  if (files.size() > most_layouts) {
    home.left_out.push_back(fmt::format("{}: it holds {} layouts; those after the first {}", folder,
                                        files.size(), most_layouts));
    files.resize(most_layouts);
  }
  return files;
}

void take(LayoutHome& home, const FolderEntry& file) {
  try {
    if (!is_plain_file(file.path)) refuse(file.path, "this is no plain file");
    Layout layout = layout_from_file(file.path);
    if (is_built_in(layout.id)) refuse(file.path, "it has the id of a built-in layout");
    const auto same = std::find_if(home.kept.begin(), home.kept.end(),
                                   [&](const auto& other) { return other.layout.id == layout.id; });
    if (same != home.kept.end()) refuse(file.path, "it has the id of " + same->path);
    home.kept.push_back({file.path, std::move(layout)});
  } catch (const Error& error) {
    home.left_out.push_back(error.what());
  }
}

Shelf fill_shelf() {
  Shelf shelf;
  LayoutHome home = read_layout_home();
  for (KeptLayout& kept : home.kept) shelf.add(std::move(kept.layout));
  for (const std::string& what : home.left_out)
    print_aside(hanging("note: left out of your own layouts: " + printable(what), 2) + "\n");
  return shelf;
}

}  // namespace

std::string layout_home() {
  if (std::string own = told("RTCMEND_LAYOUTS"); !own.empty()) return own;
  for (const char* variable : {"XDG_DATA_HOME", "APPDATA"})
    if (const std::string data = told(variable); !data.empty()) return data + "/rtcmend/layouts";
  const std::string home = told("HOME");
  return home.empty() ? "" : home + "/.local/share/rtcmend/layouts";
}

LayoutHome read_layout_home() {
  LayoutHome home;
  for (const FolderEntry& file : layout_files_in(layout_home(), home)) take(home, file);
  return home;
}

const Shelf& shelf_at_hand() {
  static const Shelf shelf = fill_shelf();
  return shelf;
}

}  // namespace rtcmend
