#include "audit/field_pool.h"

#include <catch2/catch.hpp>

#include "layout/library.h"

using namespace rtcmend;

TEST_CASE("layouts that share a field share its number") {
  const Layout one = built_in_layout("at"), other = built_in_layout("at+sum-34-3d");
  FieldPool pool;
  const std::size_t number = pool.number(one.need_field("floppy_a"), one);
  CHECK(pool.number(one.need_field("floppy_b"), one) == number + 1);
  CHECK(pool.number(other.need_field("floppy_a"), other) == number);
  CHECK(pool[number].field->id == "floppy_a");
  CHECK(pool.size() == 2);
}

TEST_CASE("a field that follows something else has a number of its own") {
  const Layout one = built_in_layout("at");
  Layout other = one;
  for (Field& field : other.fields)
    if (field.id == "floppy_a") field.preset = std::string("1.2M");
  FieldPool pool;
  const std::size_t count = pool.number(one.need_field("floppy_count"), one);
  CHECK(pool.number(other.need_field("floppy_count"), other) == count + 1);
  CHECK(pool.number(other.need_field("floppy_b"), other) ==
        pool.number(one.need_field("floppy_b"), one));
}
