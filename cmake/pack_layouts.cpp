// Run by the build: proves every built-in class and trait against the schema and its meaning, and
// writes to standard output the C++ source that defines packed_classes() and packed_traits().

#include <algorithm>
#include <cstdio>
#include <exception>
#include <fmt/format.h>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/error.h"
#include "layout/embedded.h"
#include "layout/library.h"
#include "layout/load.h"
#include "layout/packed.h"

namespace rtcmend {

// The library asks for what is packed; here there is nothing yet.
std::span<const PackedPiece> packed_classes() {
  return {};
}
std::span<const PackedPiece> packed_traits() {
  return {};
}

namespace {

/// Lines of a string literal: three octal digits a byte, so that no byte can run into the next.
std::string literal(std::string_view bytes) {
  constexpr std::size_t bytes_a_line = 24;
  std::string text;
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    if (i % bytes_a_line == 0) text += i == 0 ? "    \"" : "\"\n    \"";
    text += fmt::format("\\{:03o}", static_cast<unsigned char>(bytes[i]));
  }
  return text + "\"";
}

std::string entry(const std::string& id, const std::string& bytes) {
  return fmt::format("    {{\"{}\", std::string_view(\n{}, {})}},\n", id, literal(bytes),
                     bytes.size());
}

/// The id of a class or trait is the name of its file.
void need_name(std::string_view file, const std::string& id) {
  if (!file.ends_with("/" + id)) refuse(std::string(file), "its file has another name than " + id);
}

std::vector<LayoutClass> all_classes() {
  std::vector<LayoutClass> classes;
  for (const EmbeddedFile& file : embedded_files()) {
    if (!file.name.starts_with("classes/")) continue;
    classes.push_back(load_class(file.text, std::string(file.name), embedded_text));
    need_name(file.name, classes.back().core.id);
  }
  return classes;
}

const LayoutClass& need_class(const std::vector<LayoutClass>& classes, const std::string& id) {
  for (const LayoutClass& one : classes)
    if (one.core.id == id) return one;
  refuse(id, "there is no such class");
}

std::vector<Trait> all_traits(const std::vector<LayoutClass>& classes) {
  std::vector<Trait> traits;
  for (const EmbeddedFile& file : embedded_files()) {
    if (!file.name.starts_with("traits/")) continue;
    traits.push_back(load_trait(file.text, std::string(file.name), embedded_text));
    need_name(file.name, traits.back().id);
    for (const std::string& id : traits.back().of)
      prove_trait(traits.back(), need_class(classes, id));
  }
  const auto has_id = [&](const std::string& id) {
    return std::ranges::any_of(traits, [&](const Trait& trait) { return trait.id == id; });
  };
  for (const Trait& trait : traits) {
    for (const std::string& other : trait.not_with)
      if (!has_id(other)) refuse(trait.id, "there is no trait " + other);
    for (const MetWith& tie : trait.met_with)
      if (!has_id(tie.trait)) refuse(trait.id, "there is no trait " + tie.trait);
  }
  const auto place = [&](const Trait& trait) {
    const auto& families = need_class(classes, trait.of.front()).families;
    return std::find(families.begin(), families.end(), trait.family) - families.begin();
  };
  std::sort(traits.begin(), traits.end(), [&](const Trait& a, const Trait& b) {
    return std::pair(place(a), a.id) < std::pair(place(b), b.id);
  });
  return traits;
}

std::string source() {
  const std::vector<LayoutClass> classes = all_classes();
  std::string of_classes, of_traits;
  for (const LayoutClass& one : classes) of_classes += entry(one.core.id, pack(one));
  for (const Trait& one : all_traits(classes)) of_traits += entry(one.id, pack(one));
  return fmt::format(
      "// Made by cmake/pack_layouts.cpp from layouts/. Change those files, not this one.\n"
      "#include \"layout/packed.h\"\n\nnamespace rtcmend {{\nnamespace {{\n"
      "constexpr PackedPiece classes[] = {{\n{}}};\n"
      "constexpr PackedPiece traits[] = {{\n{}}};\n}}  // namespace\n\n"
      "std::span<const PackedPiece> packed_classes() {{ return classes; }}\n"
      "std::span<const PackedPiece> packed_traits() {{ return traits; }}\n"
      "}}  // namespace rtcmend\n",
      of_classes, of_traits);
}

}  // namespace
}  // namespace rtcmend

int main() {
  try {
    const std::string text = rtcmend::source();
    return std::fwrite(text.data(), 1, text.size(), stdout) == text.size() ? 0 : 1;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "pack_layouts: %s\n", error.what());
    return 1;
  }
}
