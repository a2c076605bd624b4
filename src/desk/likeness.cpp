#include "desk/likeness.h"

#include "identify/identify.h"

namespace rtcmend {

double likeness(const Image& image, const Shelf& shelf) {
  const Identification found = identify(image, shelf.own());
  return found.candidates.empty() ? 0 : found.candidates.front().score;
}

}  // namespace rtcmend
