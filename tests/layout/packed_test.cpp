#include "layout/packed.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "layout/embedded.h"
#include "layout/library.h"
#include "layout/load.h"

using namespace rtcmend;

namespace {

Layout without_words(Layout bare) {
  bare.title.clear();
  bare.sources.clear();
  bare.notes.clear();
  bare.after_composing.clear();
  bare.drive_types.clear();
  for (Field& field : bare.fields)
    field.label = field.group = field.note = field.source = std::string();
  for (Check& check : bare.checks) check.source.clear();
  return bare;
}

}  // namespace

TEST_CASE("every class and trait is the same whether packed by the build or read from its JSON") {
  std::size_t classes = 0, traits = 0;
  for (const EmbeddedFile& file : embedded_files()) {
    INFO(file.name);
    const std::string where(file.name);
    if (file.name.starts_with("classes/")) {
      const LayoutClass read = load_class(file.text, where, embedded_text);
      CHECK(std::ranges::count(whole_classes(), read) == 1);
      ++classes;
    } else if (file.name.starts_with("traits/")) {
      const Trait read = load_trait(file.text, where, embedded_text);
      CHECK(std::ranges::count(whole_traits(), read) == 1);
      ++traits;
    }
  }
  CHECK(classes == packed_classes().size());
  CHECK(traits == packed_traits().size());
  CHECK(classes == 4);
  CHECK(traits > 35);
}

TEST_CASE("packing keeps what no built-in layout has") {
  LayoutClass one{built_in_layout("at"), {"one family", ""}};
  Layout& layout = one.core;
  Field& field = layout.fields.front();
  field.preset = std::int64_t{-70000};
  field.least = -5;
  field.when = {{{0x2F, 3, 0}, 1, 3}};
  layout.checks.front().rule = SumRule{8, 0xFFFF, Sign::complemented, Order::low_first};
  layout.drive_types = {{47, 1024, 16, 63, std::nullopt, 1023}, {2, 615, 4, 17, 300, 615}};
  layout.notes = {std::string("a zero byte \0 inside", 20), ""};
  const LayoutClass back = unpack_class(pack(one), Unpacked::whole);
  CHECK(back == one);
  CHECK(std::get<std::int64_t>(back.core.fields.front().preset) == -70000);
  CHECK(back.core.drive_types.at(1).write_precompensation == 300);
}

TEST_CASE("an outline leaves out words for people and nothing else") {
  for (LayoutClass one : whole_classes()) {
    INFO(one.core.id);
    const LayoutClass outline = unpack_class(pack(one), Unpacked::outline);
    one.core = without_words(one.core);
    CHECK(outline == one);
  }
  for (Trait one : whole_traits()) {
    INFO(one.id);
    const Trait outline = unpack_trait(pack(one), Unpacked::outline);
    one.part = without_words(one.part);
    CHECK(outline == one);
  }
}

TEST_CASE("the patterns of a size are every class and each of its traits, where they fit") {
  for (const std::size_t size : {std::size_t{64}, std::size_t{128}}) {
    std::vector<std::string> wanted, found;
    for (const std::string& name : built_in_layouts())
      if (built_in_layout(name).size <= size) wanted.push_back(name);
    for (const Pattern& pattern : built_in_patterns(size))
      found.push_back(pattern.of->core.id +
                      (pattern.trait == nullptr ? "" : "+" + pattern.trait->id));
    CHECK(found == wanted);
    CHECK(found.size() > 20);
  }
}

TEST_CASE("the checks of a size are those of every layout that has any") {
  for (const std::size_t size : {std::size_t{64}, std::size_t{128}})
    for (const Layout& layout : built_in_checks(size)) {
      INFO(layout.id);
      Layout whole = built_in_layout(layout.id);
      for (Check& check : whole.checks) check.source.clear();
      CHECK(layout.checks == whole.checks);
      CHECK(layout.size == whole.size);
    }
  CHECK(built_in_checks(128).size() == 27);
}
