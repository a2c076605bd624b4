#include "base/append.h"

#include <catch2/catch.hpp>
#include <filesystem>

#include "base/error.h"
#include "base/files.h"
#include "support/temporary_folder.h"

using namespace rtcmend;

TEST_CASE("lines are added behind what is there, the file made when it is not") {
  const TemporaryFolder folder;
  const std::string path = (folder / "clock.log").string();
  append_line(path, "one");
  append_line(path, "two");
  CHECK(read_whole(path) == "one\ntwo\n");
}

TEST_CASE("a last line without its end gets one first") {
  const TemporaryFolder folder;
  const std::string path = (folder / "clock.log").string();
  write_whole(path, "torn", {});
  append_line(path, "whole");
  CHECK(read_whole(path) == "torn\nwhole\n");
}

TEST_CASE("a file that takes nothing is a file-system error") {
  const TemporaryFolder folder;
  try {
    append_line((folder / "no" / "clock.log").string(), "one");
    FAIL("accepted");
  } catch (const Error& error) {
    CHECK(error.refusal() == Refusal::file_system);
  }
  CHECK_THROWS_AS(append_line("/dev/full", "one"), Error);
}
