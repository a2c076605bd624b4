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
  append_lines(path, "one\n");
  append_lines(path, "two\nthree\n");
  CHECK(read_whole(path) == "one\ntwo\nthree\n");
}

TEST_CASE("a last line without its end gets one first") {
  const TemporaryFolder folder;
  const std::string path = (folder / "clock.log").string();
  write_whole(path, "torn", {});
  append_lines(path, "whole\n");
  CHECK(read_whole(path) == "torn\nwhole\n");
}

TEST_CASE("an empty file that is there already is begun without a blank line") {
  const TemporaryFolder folder;
  const std::string path = (folder / "clock.log").string();
  write_whole(path, "", {});
  append_lines(path, "one\n");
  CHECK(read_whole(path) == "one\n");
}

TEST_CASE("a file that takes nothing is a file-system error") {
  const TemporaryFolder folder;
  try {
    append_lines((folder / "no" / "clock.log").string(), "one\n");
    FAIL("accepted");
  } catch (const Error& error) {
    CHECK(error.refusal() == Refusal::file_system);
  }
  CHECK_THROWS_AS(append_lines("/dev/full", "one\n"), Error);
}
