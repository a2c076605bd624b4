#include "desk/shelf.h"

#include <catch2/catch.hpp>

#include "base/error.h"
#include "layout/library.h"

using namespace rtcmend;

namespace {

Layout renamed(const char* built_in, const char* id) {
  Layout layout = built_in_layout(built_in);
  layout.id = id;
  return layout;
}

}  // namespace

TEST_CASE("a shelf holds the built-in layouts, and those that are laid beside them") {
  Shelf shelf;
  CHECK(shelf.has("at"));
  CHECK_FALSE(shelf.has("fern"));
  shelf.add(renamed("at", "fern"));
  CHECK(shelf.has("fern"));
  CHECK(shelf.named("fern").id == "fern");
  CHECK(shelf.named("at").id == "at");
  CHECK(shelf.own().size() == 1);
}

TEST_CASE("an own layout is asked about images that it fits on") {
  Shelf shelf;
  const Image small(Image::small_size), large(Image::large_size);
  const std::size_t of_64 = shelf.about(small).size(), of_128 = shelf.about(large).size();
  shelf.add(renamed("at", "fern"));
  shelf.add(renamed("at+sum-40-7d", "sedge"));
  CHECK(shelf.about(small).size() == of_64 + 1);
  CHECK(shelf.about(large).size() == of_128 + 2);
}

TEST_CASE("a layout that is laid down again takes the place of the one before") {
  Shelf shelf;
  shelf.add(renamed("at", "fern"));
  Layout changed = renamed("crc+slots-19", "fern");
  shelf.add(changed);
  CHECK(shelf.own().size() == 1);
  CHECK(shelf.named("fern").title == changed.title);
}

TEST_CASE("an own layout cannot take the id of a built-in one") {
  Shelf shelf;
  CHECK_THROWS_WITH(shelf.add(renamed("crc+slots-19", "at")), "at: a built-in layout has this id");
  CHECK(shelf.named("at").title == built_in_layout("at").title);
}

TEST_CASE("an unknown layout is refused with the nearest ids") {
  CHECK_THROWS_WITH(Shelf().named("at-46"), Catch::Contains("at-46"));
}
