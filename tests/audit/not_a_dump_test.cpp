#include "audit/not_a_dump.h"

#include <catch2/catch.hpp>
#include <string>

using namespace rtcmend;
using namespace std::literals;

TEST_CASE("what file managers and archivers leave behind is known by its name") {
  for (const char* name : {".DS_Store", "dumps/Thumbs.db", "dumps/THUMBS.DB", "a/desktop.ini",
                           "a/._sound.bin", "__MACOSX/dumps/sound.bin", "a\\__MACOSX\\b",
                           ".Trashes/one.bin", "pax_global_header", "FILE_ID.DIZ", ".directory"}) {
    INFO(name);
    CHECK(is_leftover(name));
  }
  for (const char* name : {"sound.bin", "a/b", "_.bin", "thumbs.bin", ".sound", "desktop.ini/one",
                           "my__MACOSX/one.bin", "..", "", "/", "__MACOSX"}) {
    INFO(name);
    CHECK_FALSE(is_leftover(name));
  }
}

// How the formats begin: their makers' descriptions, and file(1).
TEST_CASE("an archive is known by how it begins, before its name is asked") {
  CHECK(kind_of_archive("a", "PK\x03\x04...."sv) == "zip");
  CHECK(kind_of_archive("a", "7z\xBC\xAF\x27\x1C..."sv) == "7z");
  CHECK(kind_of_archive("a", "Rar!\x1A\x07\x01"sv) == "rar");
  CHECK(kind_of_archive("a", "\x1F\x8B\x08\x00"sv) == "gzip");
  CHECK(kind_of_archive("a", "#\x12-lh5-...."sv) == "lha");
  CHECK(kind_of_archive("a.zip", "\x60\xEA...."sv) == "arj");
  CHECK(kind_of_archive("a", std::string(257, 'x') + "ustar\0"s) == "tar");
}

TEST_CASE("where the beginning tells nothing the name's ending does, and most files are none") {
  CHECK(kind_of_archive("DUMPS.ARC", "") == "arc");
  CHECK(kind_of_archive("one.sit", "....") == "stuffit");
  CHECK(kind_of_archive("one.tgz", "") == "tar");
  CHECK(kind_of_archive("one.bin", "PK") == "");
  CHECK(kind_of_archive("notes.txt", "where the dumps came from") == "");
  CHECK(kind_of_archive("", "") == "");
}

TEST_CASE("a file is surely an archive when its beginning and its name both say so") {
  CHECK(is_surely_archive("one.bin.gz", "\x1F\x8B\x08\x00"sv));
  CHECK(is_surely_archive("in.tgz", "\x1F\x8B\x08\x00"sv));
  CHECK_FALSE(is_surely_archive("one.bin", "\x1F\x8B\x08\x00"sv));
  CHECK_FALSE(is_surely_archive("one.arc", "\x59\x00\x30\x00"sv));
  CHECK_FALSE(is_surely_archive("", ""));
}

TEST_CASE("tar and zip are opened, the others are not") {
  CHECK(is_opened("tar"));
  CHECK(is_opened("zip"));
  CHECK_FALSE(is_opened("7z"));
  CHECK_FALSE(is_opened("gzip"));
}
