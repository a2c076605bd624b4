#include "cli/layout_choice.h"

#include <algorithm>
#include <deque>
#include <filesystem>
#include <fmt/format.h>

#include "base/error.h"
#include "base/files.h"
#include "base/text.h"
#include "judge/health.h"
#include "judge/misreads.h"
#include "layout/library.h"
#include "layout/load.h"
#include "layout/outlines.h"

namespace rtcmend {

namespace {

bool looks_like_file(const std::string& name) {
  return name.ends_with(".json") || name.find('/') != std::string::npos;
}

bool built_in(const std::string& id) {
  const auto ids = built_in_layouts();
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

/// A part's name comes from a stranger's file: it may lead down from the layout's folder, never up
/// or elsewhere.
bool stays_beside(std::string_view part) {
  return !part.empty() && part.front() != '/' && part.find("..") == std::string_view::npos;
}

std::string part_beside(const std::filesystem::path& folder, std::string_view part) {
  if (!stays_beside(part)) return {};
  try {
    return read_whole((folder / (std::string(part) + ".json")).string());
  } catch (const Error&) {
    return {};  // the loader says which include has no part
  }
}

/// "at-64 (33.0), at-128 (16.0)".
std::string listed(const std::vector<Candidate>& candidates) {
  constexpr std::size_t most = 4;
  std::vector<std::string> names;
  for (std::size_t i = 0; i < candidates.size() && i < most; ++i)
    names.push_back(candidates[i].layout);
  return join(names, ", ");
}

/// Says why no layout can be taken: what is wrong with the dump as a whole comes before any list of
/// candidates.
[[noreturn]] void refuse_unidentified(const Dump& dump, const std::string& name,
                                      const std::vector<Layout>& layouts) {
  if (const auto faults = health(dump.image, layouts); !faults.empty())
    refuse(name, "no layout can be told. " + faults.front().text, faults.front().remedy);
  const Identification found = identify(dump.image, layouts);
  if (found.candidates.empty())
    refuse(name, "no layout fits these bytes",
           "--layout ID for the one you know; --layout chip-64 or chip-128 shows the clock alone");
  refuse(name, "no layout is clearly the right one; candidates: " + listed(found.candidates),
         "--layout ID; \"rtcmend identify\" shows the evidence for each");
}

Layout identified(const Dump& dump, const std::string& name) {
  const std::vector<Layout>& layouts = layouts_about(dump.image);
  if (const Layout* clear = recognise(dump.image, layouts)) return built_in_layout(clear->id);
  refuse_unidentified(dump, name, layouts);
}

Layout named_by_dump(const Dump& dump, const std::string& name) {
  // A dump may name a built-in layout, but must not make the program open files.
  if (built_in(dump.layout)) return built_in_layout(dump.layout);
  refuse(name, fmt::format("it names the layout \"{}\", which is not built in", dump.layout),
         "give its file: --layout FILE");
}

Layout chosen(const Dump& dump, const std::string& name, const std::string& given) {
  if (!given.empty()) return layout_named(given);
  return dump.layout.empty() ? identified(dump, name) : named_by_dump(dump, name);
}

}  // namespace

const std::vector<Layout>& layouts_about(const Image& image) {
  return halves_mirror(image) ? built_in_outlines() : built_in_outlines(image.size());
}

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
  if (built_in(id_or_file)) return built_in_layout(id_or_file);
  try {
    return layout_from_file(id_or_file);
  } catch (const Error& error) {
    if (error.where() != id_or_file) throw;
    return built_in_layout(id_or_file);  // which refuses it with the nearest ids
  }
}

std::string layout_source(const std::string& id_or_file) {
  const bool is_file =
      looks_like_file(id_or_file) || (!built_in(id_or_file) && exists_already(id_or_file));
  return is_file ? printable_json(read_whole(id_or_file)) : std::string(built_in_text(id_or_file));
}

Layout layout_for(const Dump& dump, const std::string& name, const std::string& given) {
  Layout layout = chosen(dump, name, given);
  if (layout.size != dump.image.size())
    refuse(name,
           fmt::format("it holds {} bytes, and the layout {} is for {}", dump.image.size(),
                       layout.id, layout.size),
           "another layout, or leave --layout out to have it identified");
  return layout;
}

}  // namespace rtcmend
