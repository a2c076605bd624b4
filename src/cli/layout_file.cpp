#include "cli/layout_file.h"

#include <deque>
#include <fmt/format.h>
#include <functional>

#include "base/error.h"
#include "base/files.h"
#include "base/folder.h"
#include "base/text.h"
#include "cli/layout_home.h"
#include "layout/library.h"
#include "layout/load.h"

namespace rtcmend {

namespace {

bool looks_like_file(const std::string& name) {
  return name.ends_with(".json") || name.find('/') != std::string::npos;
}

std::string spoken_file(const std::string& file) {
  return file == "-" ? "standard input" : file;
}

/// The parts that a layout file includes, read as the loader asks for them.
class Parts {
 public:
  explicit Parts(const std::string& layout) : layout_(layout), files_{layout} {}

  std::string_view operator()(std::string_view part) {
    if (const std::string_view own = embedded_text(part); !own.empty()) return own;
    // A part's name comes from a stranger's file.
    const Below found = below_folder_of(layout_, std::string(part) + ".json");
    if (found.path.empty()) return {};  // the loader says which include has no part
    try {
      const std::string_view text = read_.emplace_back(read_found(found.path));
      files_.push_back(found.path);
      return text;
    } catch (const Error&) {
      return {};
    }
  }

  const std::vector<std::string>& files() const { return files_; }

 private:
  std::string layout_;
  std::vector<std::string> files_;
  std::deque<std::string> read_;  // keeps what the views point to in place
};

}  // namespace

Layout layout_from_file(const std::string& path) {
  const std::string text = read_whole(path);
  Parts parts(path);
  Layout layout = load_layout(text, path, std::ref(parts));
  layout.files = parts.files();
  return layout;
}

Layout layout_named_in(const std::string& file, const std::string& id_or_file) {
  if (shelf_at_hand().has(id_or_file)) return shelf_at_hand().named(id_or_file);
  return layout_from_file(file_named_in(file, id_or_file));
}

std::string file_named_in(const std::string& file, const std::string& name) {
  const Below found = below_folder_of(file, name);
  if (!found.path.empty()) return found.path;
  refuse(spoken_file(file), fmt::format("it names \"{}\", {}", printable(name), found.trouble),
         "what a file names is a plain file in its own folder or below: put it there, or name it "
         "on the command line instead");
}

Layout layout_named(const std::string& id_or_file) {
  if (looks_like_file(id_or_file)) return layout_from_file(id_or_file);
  if (shelf_at_hand().has(id_or_file)) return shelf_at_hand().named(id_or_file);
  try {
    return layout_from_file(id_or_file);
  } catch (const Error& error) {
    if (error.where() != id_or_file) throw;
    return built_in_layout(id_or_file);  // which refuses it with the nearest ids
  }
}

std::string layout_source(const std::string& id_or_file) {
  if (!looks_like_file(id_or_file) && !is_built_in(id_or_file) && shelf_at_hand().has(id_or_file))
    return printable_json(read_whole(shelf_at_hand().named(id_or_file).files.front()));
  const bool is_file =
      looks_like_file(id_or_file) || (!is_built_in(id_or_file) && exists_already(id_or_file));
  return is_file ? printable_json(read_whole(id_or_file)) : own_layout_file(id_or_file);
}

}  // namespace rtcmend
