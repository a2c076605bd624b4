#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace rtcmend::test {

/// What a program left behind.
struct Ran {
  int code = -1;  ///< exit code; -1 when a signal ended it
  std::string out;
  std::string err;
};

/// How a program is started.
struct Start {
  std::string program;
  std::vector<std::string> arguments;
  std::string folder;                                            ///< it runs here
  std::string input;                                             ///< its standard input
  std::vector<std::pair<std::string, std::string>> environment;  ///< added to the test's own
  std::optional<std::size_t> largest_file;  ///< bytes that it may write to any one file
  std::optional<unsigned> killed_after;     ///< microseconds until it is killed
  std::string output_to;  ///< a device for standard output, instead of catching it
};

/// Runs a program to its end. Throws std::runtime_error when it cannot be started.
Ran run_program(const Start& start);

}  // namespace rtcmend::test
