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
  Image wanted;       ///< what it holds
  bool asks = false;  ///< it can be read in several ways, and must be refused with them
};

/// How much an image looks like one of the two chips, in bits: 16 for the 16-bit sum over 10-2D,
/// high byte first at 2E (RBIL61 CMOS 2Eh), and 4 for a time in BCD.
double likeness(const Image& image);

/// All of them, in the order of their names.
std::vector<Listed> collection();

}  // namespace rtcmend::test
