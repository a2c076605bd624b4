#pragma once

#include <string>
#include <string_view>

#include "support/temporary_folder.h"

namespace rtcmend::test {

/// A folder of its own for one test, gone with it.
class Workplace {
 public:
  std::string path(std::string_view name) const;
  /// Writes a file and returns its path.
  std::string put(std::string_view name, std::string_view content) const;
  /// Content of a file; empty when there is none.
  std::string get(std::string_view name) const;

 private:
  TemporaryFolder folder_;
};

/// Fails the test with a sentence that says what to install when a program is missing.
void need_program(const std::string& program, const std::string& package);

/// Assembles a source of tests/deliver/ into a file and returns its path.
std::string assemble(const Workplace& workplace, const std::string& source);

}  // namespace rtcmend::test
