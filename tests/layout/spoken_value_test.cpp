#include "layout/spoken_value.h"

#include <catch2/catch.hpp>

#include "layout/library.h"

using namespace rtcmend;

namespace {

std::optional<Value> spoken(const char* field, const char* word) {
  static const Layout at = built_in_layout("at");
  return spoken_value(at.need_field(field), word);
}

}  // namespace

TEST_CASE("a flag is yes and no in every ordinary spelling") {
  for (const char* yes : {"yes", "Y", "on", "TRUE", "1", " enabled "})
    CHECK(spoken("coprocessor", yes) == Value(true));
  for (const char* no : {"no", "N", "Off", "false", "0", "disabled"})
    CHECK(spoken("coprocessor", no) == Value(false));
  CHECK_FALSE(spoken("coprocessor", "perhaps"));
  CHECK_FALSE(spoken("coprocessor", ""));
}

TEST_CASE("memory is taken with the units that people type, a megabyte as 1024 KiB") {
  for (const char* word : {"640", "640K", "640 k", "640KB", "640 kb", "640 KiB", " 640kib"})
    CHECK(spoken("base_memory_kib", word) == Value(640));
  for (const char* word : {"3072", "3M", "3 MB", "3MiB"})
    CHECK(spoken("extended_memory_kib", word) == Value(3072));
  for (const char* word : {"", "K", "6 40", "640G", "1.5M", "640KK", "99999999999999999999"})
    CHECK_FALSE(spoken("base_memory_kib", word));
}

TEST_CASE("a number without a unit takes none") {
  CHECK(spoken("disk_0_type", " 39 ") == Value(39));
  CHECK_FALSE(spoken("disk_0_type", "39K"));
}

TEST_CASE("a floppy drive is named by its size, however it is written") {
  for (const char* word : {"1.44M", "1.44", "1.44mb", "1.44 MB", "1440K", "1440", "1440kb"})
    CHECK(spoken("floppy_a", word) == Value("1.44M"));
  for (const char* word : {"360", "360k", "360 KB"})
    CHECK(spoken("floppy_a", word) == Value("360K"));
  CHECK(spoken("floppy_a", "1200K") == Value("1.2M"));
  CHECK(spoken("floppy_a", "2.88") == Value("2.88M"));
  for (const char* word : {"none", "NONE", "no"}) CHECK(spoken("floppy_a", word) == Value("none"));
}

TEST_CASE("what fits no floppy drive, or more than one, is no answer") {
  for (const char* word :
       {"3.5", "3.5\"", "5.25", "1.4", "1.44.1", "m", "k", ".", "1.4444M", "14400K"})
    CHECK_FALSE(spoken("floppy_a", word));
}

TEST_CASE("a display adapter is taken by its own name") {
  CHECK(spoken("display", "vga") == Value("own-firmware"));
  CHECK(spoken("display", "EGA") == Value("own-firmware"));
  CHECK(spoken("display", "cga") == Value("colour-80"));
  CHECK(spoken("display", "MDA") == Value("mono-80"));
  CHECK(spoken("display", "Colour-40") == Value("colour-40"));
  CHECK_FALSE(spoken("floppy_a", "vga"));
}
