#include "layout/code.h"

#include <catch2/catch.hpp>

#include "layout/library.h"

using namespace rtcmend;

TEST_CASE("the code of a value is what stands in the field's own bits") {
  const Layout layout = built_in_layout("at");
  // RBIL61 C0007: 4 = 1.44M; C0014: type F says that the type is in byte 19h; C0011: KiB.
  CHECK(code_of(layout.need_field("floppy_a"), std::string("1.44M")) == 4);
  CHECK(code_of(layout.need_field("disk_0_type"), std::int64_t{7}) == 7);
  CHECK(code_of(layout.need_field("disk_0_type"), std::int64_t{39}) == 15);
  CHECK(code_of(layout.need_field("base_memory_kib"), std::int64_t{640}) == 640);
  CHECK(code_of(layout.need_field("coprocessor"), true) == 1);
  CHECK(code_of(layout.need_field("century"), std::int64_t{19}) == 0x19);
}

TEST_CASE("only numbers of its range stand in a field's escape byte") {
  const Layout layout = built_in_layout("at");
  CHECK(in_escape(layout.need_field("disk_0_type"), 39));
  CHECK_FALSE(in_escape(layout.need_field("disk_0_type"), 14));
  CHECK_FALSE(in_escape(layout.need_field("base_memory_kib"), 39));
}
