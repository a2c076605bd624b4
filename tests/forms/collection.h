#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "base/image.h"

namespace rtcmend::test {

/// A listing of the collection in tests/forms/listings/.
struct Listed {
  std::string name;
  std::string content;
  Image wanted;      ///< what it holds
  bool asks = false;  ///< it can be read in several ways, and must be refused with them
};

/// All of them, in the order of their names.
std::vector<Listed> collection();

}  // namespace rtcmend::test
