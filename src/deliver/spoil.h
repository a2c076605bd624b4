#pragma once

#include <optional>

#include "deliver/delivery.h"

namespace rtcmend {

/// A check byte that is set wrong before anything else is written, and right after everything else:
/// a chip that is half written never passes for a sound one.
struct Spoil {
  std::size_t check = 0;  ///< which of the parcel's
  Address at = 0;
  std::uint8_t value = 0;  ///< for programs that cannot choose one by the chip's own bytes
  /// No bytes whatever under the check come to the value. False: a state in between passes by
  /// chance, one in 256 for a check of one byte, one in 65,536 for one of two.
  bool certain = false;
};

/// The best byte among those that are written: nothing when none of them is a check's.
std::optional<Spoil> choose_spoil(const Parcel& parcel, const Addresses& written);

}  // namespace rtcmend
