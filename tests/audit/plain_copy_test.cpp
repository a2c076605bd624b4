#include "audit/plain_copy.h"

#include <catch2/catch.hpp>

#include "layout/library.h"

using namespace rtcmend;

TEST_CASE("the memory found at start is a plain copy of the memory set up") {
  const Layout at = built_in_layout("at");
  const auto copy = PlainCopy::of(at.need_field("extended_memory_found_kib"), at);
  REQUIRE(copy);

  Image image(64);
  for (unsigned i = 0; i < 64; ++i) image.set(static_cast<Address>(i), 0);
  CHECK(copy->is_true(image));
  CHECK(copy->is_blank(image));
  image.set(0x17, 0x80);
  CHECK_FALSE(copy->is_true(image));
  CHECK(copy->is_blank(image));
  image.set(0x31, 0x80);  // the other byte of the two
  CHECK_FALSE(copy->is_true(image));
  CHECK_FALSE(copy->is_blank(image));
  image.set(0x31, 0xFF);
  image.set(0x30, 0xFF);
  CHECK(copy->is_blank(image));
  image.set(0x17, 0xFF);
  image.set(0x18, 0xFF);
  CHECK(copy->is_true(image));
}

TEST_CASE("what counts drives, stands alone or knows bounds is no plain copy") {
  Layout at = built_in_layout("at");
  CHECK_FALSE(PlainCopy::of(at.need_field("floppy_count"), at));
  CHECK_FALSE(PlainCopy::of(at.need_field("extended_memory_kib"), at));
  for (Field& field : at.fields)
    if (field.id == "extended_memory_found_kib") field.most = 1024;
  CHECK_FALSE(PlainCopy::of(at.need_field("extended_memory_found_kib"), at));
}
