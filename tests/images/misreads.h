#pragma once

#include <string>
#include <vector>

#include "base/image.h"

namespace rtcmend {

/// A dump as a faulty reader would have given it.
struct Misread {
  std::string name;  ///< "data line 5 at 0"
  Image image;
};

/// Every fault of the reading that home-made readers have, done to one image: data lines 0-7 and
/// address lines 0-5 stuck at 0 and at 1; nothing but 00, FF or one value; shifted; nibbles and
/// bits the wrong way round. Faults that leave the image as it is are left out.
std::vector<Misread> every_misread(const Image& image);

}  // namespace rtcmend
