#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "support/run_program.h"
#include "support/temporary_folder.h"

namespace rtcmend::test {

/// A folder in which the real program runs, as a user would start it.
class Workbench {
 public:
  Workbench();

  /// Runs rtcmend with these words.
  Ran run(std::vector<std::string> arguments, std::string input = {}) const;
  /// What a run needs beyond its words; program and folder are filled in here.
  Ran run(Start start) const;
  /// Runs a line of the shell, $0 being rtcmend.
  Ran shell(const std::string& line) const;

  /// What starts rtcmend in a line of the shell as a user who owns nothing; nothing where that
  /// cannot be done. With a blank behind it.
  std::optional<std::string> rtcmend_as_nobody() const;

  std::string path(const std::string& name) const { return (folder_ / name).string(); }
  void put(const std::string& name, std::string_view content) const;
  void put(const std::string& name, const std::vector<std::uint8_t>& bytes) const;
  std::string get(const std::string& name) const;
  std::vector<std::uint8_t> bytes(const std::string& name) const;
  bool has(const std::string& name) const;
  /// How many files lie in the folder: nothing half-written may stay behind.
  std::size_t files() const;

 private:
  TemporaryFolder folder_;
};

/// Whether a message has design's shape, "rtcmend: WHERE: ...", and holds these words.
bool complains(const Ran& ran, std::string_view where, std::string_view words);

}  // namespace rtcmend::test
