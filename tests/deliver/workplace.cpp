#include "deliver/workplace.h"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <unistd.h>

namespace rtcmend::test {

namespace {

bool on_the_path(const std::string& program) {
  const char* path = std::getenv("PATH");
  std::istringstream folders(path ? path : "");
  for (std::string folder; std::getline(folders, folder, ':');)
    if (access((folder + "/" + program).c_str(), X_OK) == 0) return true;
  return false;
}

}  // namespace

std::string Workplace::path(std::string_view name) const {
  return (folder_ / std::string(name)).string();
}

std::string Workplace::put(std::string_view name, std::string_view content) const {
  std::ofstream(path(name), std::ios::binary) << content;
  return path(name);
}

std::string Workplace::get(std::string_view name) const {
  std::ifstream file(path(name), std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

void need_program(const std::string& program, const std::string& package) {
  if (!on_the_path(program))
    FAIL("this test needs the program " << program << ": install the package " << package);
}

std::string assemble(const Workplace& workplace, const std::string& source) {
  need_program("nasm", "nasm");
  const std::string out = workplace.path(source + ".bin");
  const std::string from = std::string(RTCMEND_SOURCE_DIR) + "/tests/deliver/" + source;
  const std::string command = "nasm -f bin -o '" + out + "' '" + from + "'";
  REQUIRE(std::system(command.c_str()) == 0);
  return out;
}

}  // namespace rtcmend::test
