#pragma once

#include <string>
#include <vector>

#include "base/image.h"
#include "images/random_image.h"

namespace rtcmend {

/// A dump spoilt in a known way, and what health() must call it.
struct Injected {
  Image image;
  std::string id;    ///< of the finding
  std::string says;  ///< words that its text must hold: which line, how far
};

/// One kind of fault, injected with its particulars drawn.
struct FaultKind {
  const char* name;
  Injected (*inject)(const Image&, Dice&);
  bool small_only = false;  ///< only for images of 64 bytes

  bool fits(const Image& image) const { return !small_only || image.size() == Image::small_size; }
};

/// Whether health() names it, and nothing else.
bool named_rightly(const Injected& fault);

Injected with_data_bit_stuck(const Image& image, unsigned bit, bool high);
Injected with_address_line_stuck(const Image& image, unsigned line, bool high);

/// Stuck data bits and address lines, mirrored halves, shifts (round, or with foreign bytes moving
/// in), nibbles and bit order.
const std::vector<FaultKind>& fault_kinds();

}  // namespace rtcmend
