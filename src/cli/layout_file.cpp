#include "cli/layout_file.h"

#include <deque>
#include <filesystem>

#include "base/error.h"
#include "base/files.h"
#include "base/text.h"
#include "layout/library.h"
#include "layout/load.h"

namespace rtcmend {

namespace {

bool looks_like_file(const std::string& name) {
  return name.ends_with(".json") || name.find('/') != std::string::npos;
}

/// A part's name comes from a stranger's file: it may lead down from the layout's folder, never up
/// or elsewhere.
bool stays_beside(std::string_view part) {
  return !part.empty() && part.front() != '/' && part.find("..") == std::string_view::npos;
}

std::string part_beside(const std::filesystem::path& folder, std::string_view part) {
  if (!stays_beside(part)) return {};
  try {
    const std::filesystem::path file = folder / (std::string(part) + ".json");
    // A pipe or a device would make a layout wait for, or read, what nobody named.
    return is_plain_file(file.string()) ? read_whole(file.string()) : std::string();
  } catch (const Error&) {
    return {};  // the loader says which include has no part
  }
}

}  // namespace

Layout layout_from_file(const std::string& path) {
  const std::string text = read_whole(path);
  const std::filesystem::path folder = std::filesystem::path(path).parent_path();
  std::deque<std::string> read;  // keeps what the views point to in place
  const auto parts = [&](std::string_view part) -> std::string_view {
    if (const std::string_view own = embedded_text(part); !own.empty()) return own;
    return read.emplace_back(part_beside(folder, part));
  };
  return load_layout(text, path, parts);
}

Layout layout_named(const std::string& id_or_file) {
  if (looks_like_file(id_or_file)) return layout_from_file(id_or_file);
  if (is_built_in(id_or_file)) return built_in_layout(id_or_file);
  try {
    return layout_from_file(id_or_file);
  } catch (const Error& error) {
    if (error.where() != id_or_file) throw;
    return built_in_layout(id_or_file);  // which refuses it with the nearest ids
  }
}

std::string layout_source(const std::string& id_or_file) {
  const bool is_file =
      looks_like_file(id_or_file) || (!is_built_in(id_or_file) && exists_already(id_or_file));
  return is_file ? printable_json(read_whole(id_or_file)) : own_layout_file(id_or_file);
}

}  // namespace rtcmend
