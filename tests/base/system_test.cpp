#include "base/system.h"

#include <catch2/catch.hpp>
#include <fstream>
#include <limits>

#include "base/descriptor.h"
#include "support/temporary_folder.h"

using namespace rtcmend;

TEST_CASE("a moment beyond every calendar has no time of day") {
  CHECK_FALSE(system::local_time(std::numeric_limits<std::time_t>::max()));
  CHECK(system::local_time(0));
}

TEST_CASE("the last byte is read where the file ends, or not at all") {
  const TemporaryFolder folder;
  const std::string path = (folder / "log").string();
  std::ofstream(path) << "one\ntorn";
  const Descriptor file(system::open_to_read(path));
  CHECK(system::last_byte(file.get(), 8) == 'n');
  CHECK(system::last_byte(file.get(), 4) == '\n');
  CHECK_FALSE(system::last_byte(file.get(), 0));
  // It was cut by somebody else since its size was asked.
  CHECK_FALSE(system::last_byte(file.get(), 9));
}
