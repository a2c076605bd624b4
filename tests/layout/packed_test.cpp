#include "layout/packed.h"

#include <catch2/catch.hpp>

#include "layout/library.h"
#include "layout/load.h"
#include "layout/outlines.h"

using namespace rtcmend;

namespace {

Layout from_json(const std::string& id) {
  return load_layout(built_in_text(id), id, embedded_text);
}

}  // namespace

TEST_CASE("every built-in layout is the same whether packed by the build or read from its JSON") {
  for (const std::string& id : built_in_layouts()) {
    INFO(id);
    CHECK(built_in_layout(id) == from_json(id));
  }
}

TEST_CASE("the build packs every layout file, under its own name and in order") {
  std::vector<std::string> ids;
  for (const PackedLayout& layout : packed_layouts()) ids.emplace_back(layout.id);
  CHECK(ids == built_in_layouts());
  CHECK(ids.front() == "at");
  CHECK(unpack(packed_layouts().front().bytes).id == "at");
}

TEST_CASE("packing keeps what no built-in layout has") {
  Layout layout = from_json("at");
  Field& field = layout.fields.front();
  field.preset = std::int64_t{-70000};
  field.least = -5;
  field.when = Condition{0x2F, 0x0F, 0x03};
  layout.checks.front().rule = SumRule{8, 0xFFFF, Sign::complemented, Order::low_first};
  layout.drive_types = {{47, 1024, 16, 63, std::nullopt, 1023}, {2, 615, 4, 17, 300, 615}};
  layout.notes = {std::string("a zero byte \0 inside", 20), ""};
  const Layout back = unpack(pack(layout));
  CHECK(back == layout);
  CHECK(std::get<std::int64_t>(back.fields.front().preset) == -70000);
  CHECK(back.drive_types.at(1).write_precompensation == 300);
}

TEST_CASE("an outline leaves out words for people and nothing else") {
  for (const std::string& id : built_in_layouts()) {
    INFO(id);
    Layout bare = from_json(id);
    bare.title.clear();
    bare.sources.clear();
    bare.notes.clear();
    bare.after_composing.clear();
    bare.drive_types.clear();
    for (Field& field : bare.fields)
      field.label = field.group = field.note = field.source = std::string();
    for (Check& check : bare.checks) check.source.clear();
    CHECK(unpack_outline(pack(from_json(id))) == bare);
  }
}

TEST_CASE("the outlines are those of all built-in layouts, in their order") {
  std::vector<std::string> ids;
  for (const Layout& outline : built_in_outlines()) ids.push_back(outline.id);
  CHECK(ids == built_in_layouts());
}

TEST_CASE("the outlines of one size are those of that size, in the same order") {
  for (const std::size_t size : {std::size_t{64}, std::size_t{128}}) {
    std::vector<std::string> wanted, found;
    for (const Layout& outline : built_in_outlines())
      if (outline.size == size) wanted.push_back(outline.id);
    for (const Layout& outline : built_in_outlines(size)) found.push_back(outline.id);
    CHECK(found == wanted);
    CHECK(found.size() > 5);
  }
}

TEST_CASE("a packed layout tells its size without being unpacked") {
  CHECK(packed_size(pack(built_in_layout("at"))) == 64);
  CHECK(packed_size(pack(built_in_layout("at"))) == 128);
}
