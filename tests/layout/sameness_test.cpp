#include <catch2/catch.hpp>
#include <functional>
#include <vector>

#include "layout/layout.h"

using namespace rtcmend;

namespace {

/// A field in which everything is given.
Field whole_field() {
  Field field;
  field.id = "f";
  field.bits = {{0x10, 7, 4}};
  field.choices = {{1, "one"}};
  field.escape = Escape{15, 0x19, 16, 255};
  field.follows = Follows{Follows::How::count, {"g"}, 1};
  field.when = {{{0x2F, 3, 0}, 1, 3}};
  field.preset = true;
  return field;
}

Layout whole_layout() {
  Layout layout;
  layout.id = "mine";
  layout.fields = {whole_field()};
  layout.drive_types = {{47, 1024, 16, 63, 512, 1023}};
  return layout;
}

}  // namespace

TEST_CASE("two fields are the same only when they agree in every member") {
  const std::vector<std::function<void(Field&)>> changes = {
      [](Field& f) { f.id = "h"; },
      [](Field& f) { f.label = "H"; },
      [](Field& f) { f.group = "h"; },
      [](Field& f) { f.note = "h"; },
      [](Field& f) { f.source = "h"; },
      [](Field& f) { f.bits[0].at = 0x11; },
      [](Field& f) { f.bits[0].high = 6; },
      [](Field& f) { f.bits[0].low = 3; },
      [](Field& f) { f.meaning = Meaning::choice; },
      [](Field& f) { f.unit = "KiB"; },
      [](Field& f) { f.scale = 2; },
      [](Field& f) { f.offset = 1; },
      [](Field& f) { f.least = 0; },
      [](Field& f) { f.most = 9; },
      [](Field& f) { f.choices[0].raw = 2; },
      [](Field& f) { f.choices[0].name = "two"; },
      [](Field& f) { f.escape->when = 14; },
      [](Field& f) { f.escape->at = 0x1A; },
      [](Field& f) { f.escape->least = 17; },
      [](Field& f) { f.escape->most = 254; },
      [](Field& f) { f.follows->how = Follows::How::any; },
      [](Field& f) { f.follows->of = {"h"}; },
      [](Field& f) { f.follows->least = 0; },
      [](Field& f) { f.when.clear(); },
      [](Field& f) { f.when[0].bits.at = 0x2E; },
      [](Field& f) { f.when[0].least = 2; },
      [](Field& f) { f.when[0].most = 2; },
      [](Field& f) { f.follows->up_to = 9; },
      [](Field& f) { f.preset = false; },
      [](Field& f) { f.is_volatile = true; },
      [](Field& f) { f.read_only = true; },
  };
  CHECK(whole_field() == whole_field());
  for (std::size_t i = 0; i < changes.size(); ++i) {
    Field other = whole_field();
    changes[i](other);
    INFO("change " << i);
    CHECK_FALSE(other == whole_field());
  }
}

TEST_CASE("two layouts are the same only when they agree in every member") {
  const std::vector<std::function<void(Layout&)>> changes = {
      [](Layout& l) { l.id = "yours"; },
      [](Layout& l) { l.title = "Yours"; },
      [](Layout& l) { l.size = 128; },
      [](Layout& l) { l.fields[0].id = "h"; },
      [](Layout& l) { l.checks.emplace_back(); },
      [](Layout& l) { l.sealing = {0}; },
      [](Layout& l) { l.sources = {"measured"}; },
      [](Layout& l) { l.notes = {"a note"}; },
      [](Layout& l) { l.after_composing = {"set the clock"}; },
      [](Layout& l) { l.drive_types[0].type = 46; },
      [](Layout& l) { l.drive_types[0].cylinders = 1023; },
      [](Layout& l) { l.drive_types[0].heads = 15; },
      [](Layout& l) { l.drive_types[0].sectors = 17; },
      [](Layout& l) { l.drive_types[0].write_precompensation.reset(); },
      [](Layout& l) { l.drive_types[0].landing_zone = 0; },
  };
  CHECK(whole_layout() == whole_layout());
  for (std::size_t i = 0; i < changes.size(); ++i) {
    Layout other = whole_layout();
    changes[i](other);
    INFO("change " << i);
    CHECK_FALSE(other == whole_layout());
  }
}
