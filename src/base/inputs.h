#pragma once

#include <initializer_list>
#include <string>
#include <vector>

#include "base/system.h"

namespace rtcmend {

/// The files that a command reads, known by device and number from the moment they are added: an
/// output that is one of them, by whatever name, is refused. What standard input comes from is
/// always among them.
class Inputs {
 public:
  Inputs() = default;
  Inputs(std::initializer_list<std::string> paths) : Inputs(std::vector<std::string>(paths)) {}
  Inputs(const std::vector<std::string>& paths) { add(paths); }

  /// Empty names and "-" are passed over, and so is what is not there: its reader says so.
  void add(const std::string& path);
  void add(const std::vector<std::string>& paths);

  /// Whether the path leads to one of them.
  bool hold(const std::string& path) const;

 private:
  std::vector<std::string> paths_;
  std::vector<system::FileId> ids_;
};

}  // namespace rtcmend
