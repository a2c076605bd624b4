#pragma once

#include <array>
#include <vector>

#include "audit/finding_set.h"
#include "audit/recall.h"
#include "base/image.h"

namespace rtcmend {

/// What the chip's own bytes say, remembered byte by byte. For images with every byte known.
class QuickClock {
 public:
  QuickClock();

  struct Answer {
    FindingSet findings;    ///< of registers, time and alarms; not of the date and the weekday
    bool time_is_legal;     ///< seconds, minutes and hours
    double least_credence;  ///< chip_credence() is this or more
  };
  Answer operator()(const Image& image);

 private:
  struct Said {
    FindingSet findings;
    double credence = 0;
  };
  /// A register, or a clock byte read in the mode of register B: BCD or binary, 12 or 24 hours, the
  /// alarm on or off.
  struct Part {
    Address at;
    bool is_register;
    std::array<Recall<Said>, 8> by_mode;
  };
  Said ask(const Part& part, const Image& image);

  std::vector<Part> parts_;
};

/// An image in which only these bytes of another one are known.
Image only_known(const Image& image, const Addresses& known);

}  // namespace rtcmend
