#include "cli/likeness.h"

#include "judge/identify.h"
#include "layout/outlines.h"

namespace rtcmend {

double likeness(const Image& image) {
  const Identification found = identify(image, built_in_outlines(image.size()));
  return found.candidates.empty() ? 0 : found.candidates.front().score;
}

}  // namespace rtcmend
