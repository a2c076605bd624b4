#include "layout/same_layout.h"

#include <catch2/catch.hpp>
#include <utility>
#include <vector>

#include "layout/library.h"

using namespace rtcmend;

TEST_CASE("a layout with the same checks and more fields refines the plain one") {
  const Layout plain = built_in_layout("at");
  CHECK(refines(built_in_layout("at+disks-1b"), plain));
  CHECK(refines(built_in_layout("at+memory-35"), plain));
  CHECK(refines(built_in_layout("at+sum-34-3d+disks-1b+repeat-11+options-13+options-2d+shadow-34"),
                built_in_layout("at+sum-34-3d")));
  CHECK_FALSE(refines(plain, built_in_layout("at+disks-1b")));
  CHECK_FALSE(refines(plain, plain));
}

TEST_CASE("another check or other places are no refinement") {
  CHECK_FALSE(
      refines(built_in_layout("at+sum-34-3d+disks-1b+repeat-11+options-13+options-2d+shadow-34"),
              built_in_layout("at")));
  CHECK_FALSE(refines(built_in_layout("at+sum-40-79"), built_in_layout("at")));
  CHECK_FALSE(refines(built_in_layout("at+disks-1b"), built_in_layout("at+disks-1b-short")));
  CHECK_FALSE(refines(built_in_layout("crc+copy-29"), built_in_layout("crc+slots-19")));
}

TEST_CASE("a layout includes the fields of the plain one, whatever its checks") {
  CHECK(includes_fields(built_in_layout("at+sum-34-3d"), built_in_layout("at")));
  CHECK(includes_fields(built_in_layout("at"), built_in_layout("chip")));
  CHECK(includes_fields(built_in_layout("at"), built_in_layout("at")));
  CHECK_FALSE(includes_fields(built_in_layout("at"), built_in_layout("at+disks-1b")));
  CHECK_FALSE(includes_fields(built_in_layout("crc+slots-19"), built_in_layout("at")));
}

TEST_CASE("a field at other bits or of another kind is not the plain one's") {
  const Layout plain = built_in_layout("at");
  const auto with_changed_field = [&](auto change) {
    Layout special = plain;
    change(special.fields.front());
    return includes_fields(special, plain);
  };
  CHECK(with_changed_field([](Field& field) { field.label = "Another word for it"; }));
  CHECK_FALSE(with_changed_field([](Field& field) { field.id = "another"; }));
  CHECK_FALSE(with_changed_field([](Field& field) { field.meaning = Meaning::number; }));
  CHECK_FALSE(with_changed_field([](Field& field) { field.bits.front().at += 1; }));
  CHECK_FALSE(with_changed_field([](Field& field) { field.bits.front().high -= 1; }));
  CHECK_FALSE(with_changed_field([](Field& field) { field.bits.front().low += 1; }));
  CHECK_FALSE(with_changed_field([](Field& field) { field.bits.pop_back(); }));
}

TEST_CASE("a check that differs in anything but its words is another check") {
  const Layout plain = built_in_layout("at");
  const auto refines_with = [&](auto change) {
    Layout special = built_in_layout("at+disks-1b");
    change(special.checks.front());
    return refines(special, plain);
  };
  CHECK(refines_with([](Check& check) { check.source = "measured"; }));
  CHECK_FALSE(refines_with([](Check& check) { check.stored_at += 1; }));
  CHECK_FALSE(refines_with([](Check& check) { check.order = Order::low_first; }));
  CHECK_FALSE(refines_with([](Check& check) { check.rule = XorRule{}; }));
  CHECK_FALSE(refines_with([](Check& check) { check.over.front().range.last -= 1; }));
  CHECK_FALSE(refines_with([](Check& check) { check.when = Condition{0x30, 0xFF, 0x01}; }));
  CHECK_FALSE(refines_with([](Check& check) {
    check.over.front().when = Condition{0x30, 0xFF, 0x01};
  }));
}

TEST_CASE("stretches that count under other conditions make another check") {
  const auto under = [](std::uint8_t value, std::vector<Field> fields) {
    Layout layout;
    layout.fields = std::move(fields);
    layout.checks.push_back({"sum",
                             "",
                             SumRule{},
                             {{{0x10, 0x2D}, Condition{0x29, 0x80, value}}},
                             0x2E,
                             Order::high_first,
                             std::nullopt});
    return layout;
  };
  Field extra;
  extra.id = "extra";
  CHECK(refines(under(0x80, {extra}), under(0x80, {})));
  CHECK_FALSE(refines(under(0x80, {extra}), under(0x00, {})));
}
