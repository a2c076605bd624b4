#include "make/seal.h"

#include "check/check.h"

namespace rtcmend {

Image seal(const Image& image, const Layout& layout) {
  Image sealed = image;
  for (const std::size_t index : layout.sealing) seal_one(layout.checks[index], sealed);
  return sealed;
}

}  // namespace rtcmend
