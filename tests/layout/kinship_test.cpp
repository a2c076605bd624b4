#include "layout/kinship.h"

#include <catch2/catch.hpp>

#include "layout/library.h"

using namespace rtcmend;

TEST_CASE("a layout with the same checks and more fields refines the plain one") {
  const Layout plain = built_in_layout("at-64");
  CHECK(refines(built_in_layout("at-64-disk-block-a"), plain));
  CHECK(refines(built_in_layout("at-64-memory-35"), plain));
  CHECK(refines(built_in_layout("at-sum-34-3d-options"), built_in_layout("at-sum-34-3d")));
  CHECK_FALSE(refines(plain, built_in_layout("at-64-disk-block-a")));
  CHECK_FALSE(refines(plain, plain));
}

TEST_CASE("another check, another size or other places are no refinement") {
  CHECK_FALSE(refines(built_in_layout("at-sum-34-3d-options"), built_in_layout("at-64")));
  CHECK_FALSE(refines(built_in_layout("at-sum-40-79"), built_in_layout("at-128")));
  CHECK_FALSE(refines(built_in_layout("at-64-disk-block-a"), built_in_layout("at-128")));
  CHECK_FALSE(
      refines(built_in_layout("at-64-disk-block-a"), built_in_layout("at-64-disk-block-b")));
  CHECK_FALSE(refines(built_in_layout("crc-64-mirror"), built_in_layout("crc-64")));
}

TEST_CASE("a layout includes the fields of the plain one, whatever its checks") {
  CHECK(includes_fields(built_in_layout("at-sum-34-3d"), built_in_layout("at-64")));
  CHECK(includes_fields(built_in_layout("at-64"), built_in_layout("chip-64")));
  CHECK(includes_fields(built_in_layout("at-64"), built_in_layout("at-64")));
  CHECK_FALSE(includes_fields(built_in_layout("at-64"), built_in_layout("at-64-disk-block-a")));
  CHECK_FALSE(includes_fields(built_in_layout("crc-64"), built_in_layout("at-64")));
  CHECK_FALSE(includes_fields(built_in_layout("at-128"), built_in_layout("at-64")));
}
