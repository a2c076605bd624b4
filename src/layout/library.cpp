#include "layout/library.h"

#include <algorithm>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/error.h"
#include "base/json.h"
#include "base/text.h"
#include "layout/embedded.h"
#include "layout/load.h"
#include "layout/outlines.h"
#include "layout/packed.h"
#include "layout/read_field.h"

namespace rtcmend {

namespace {

/// Layouts are the files at the top that say which chip they are for; the others are tables.
bool is_layout(const EmbeddedFile& file) {
  return file.name.find('/') == std::string_view::npos &&
         file.text.find("\"chip\": \"chip-") != std::string_view::npos;
}

const PackedLayout* packed_layout(std::string_view id) {
  const auto packed = packed_layouts();
  const auto found = std::find_if(packed.begin(), packed.end(),
                                  [&](const PackedLayout& layout) { return layout.id == id; });
  return found == packed.end() ? nullptr : &*found;
}

/// Those packed layouts that are wanted.
template <typename Wanted>
std::vector<Layout> made_outlines(const Wanted& wanted) {
  std::vector<Layout> made;
  for (const PackedLayout& layout : packed_layouts())
    if (wanted(layout)) made.push_back(unpack_outline(layout.bytes));
  return made;
}

}  // namespace

std::vector<std::string> built_in_layouts() {
  std::vector<std::string> ids;
  for (const PackedLayout& layout : packed_layouts()) ids.emplace_back(layout.id);
  if (!ids.empty()) return ids;
  for (const EmbeddedFile& file : embedded_files())
    if (is_layout(file)) ids.emplace_back(file.name);
  std::sort(ids.begin(), ids.end());
  return ids;
}

std::string_view embedded_text(std::string_view name) {
  const auto files = embedded_files();
  const auto found = std::find_if(files.begin(), files.end(),
                                  [&](const EmbeddedFile& file) { return file.name == name; });
  return found == files.end() ? std::string_view{} : found->text;
}

std::string_view built_in_text(std::string_view id) {
  for (const EmbeddedFile& file : embedded_files())
    if (file.name == id && is_layout(file)) return file.text;
  const auto near = nearest(id, built_in_layouts());
  refuse("layout", fmt::format("there is no built-in layout \"{}\"", printable(id)),
         near.empty() ? [&]() -> Advice { return {{"A layout of your own is given as a file; see the built-in ones",
                                Act{Act::Kind::list, "layouts", {}}}}; }()
                      : Advice("did you mean " + join(near, " or ") + "?"));
}

Layout built_in_layout(std::string_view id) {
  if (const PackedLayout* packed = packed_layout(id)) return unpack(packed->bytes);
  // The tests hold every built-in file against the schema, so starting need not.
  return load_layout(built_in_text(id), std::string(id), embedded_text, false);
}

const std::vector<Layout>& built_in_outlines() {
  // Never taken apart: at the end of a short command that would take as long as judging a dump.
  static const std::vector<Layout>& outlines =
      *new std::vector<Layout>(made_outlines([](const PackedLayout&) { return true; }));
  return outlines;
}

const std::vector<Layout>& built_in_outlines(std::size_t image_size) {
  const auto of_size = [](std::size_t size) {
    return new std::vector<Layout>(made_outlines(
        [=](const PackedLayout& layout) { return packed_size(layout.bytes) == size; }));
  };
  if (image_size == Image::small_size) {
    static const std::vector<Layout>& small = *of_size(Image::small_size);
    return small;
  }
  static const std::vector<Layout>& large = *of_size(Image::large_size);
  return large;
}

const std::vector<DriveType>& common_drive_types() {
  static const std::vector<DriveType> types = [] {
    std::vector<DriveType> read;
    const auto table = parse_json(embedded_text("drive-types"), "drive-types");
    for (const auto& entry : table["types"]) read.push_back(read_drive_type(entry));
    return read;
  }();
  return types;
}

}  // namespace rtcmend
