#pragma once

#include "deliver/spoil.h"

namespace rtcmend {

/// Which bytes go into the chip, and in which order: one check byte spoiled, RAM from 0Eh up, the
/// stored check bytes, and the spoiled one set right at the very end.
struct WritePlan {
  Image image{Image::small_size};  ///< register A counting, B without SET, alarms 00 where unknown
  Addresses order;                 ///< RAM bytes, without the century byte
  std::optional<Address> century;  ///< written with the time; nothing = an ordinary RAM byte
  std::optional<Spoil> spoil;      ///< nothing when no check's byte is written
  bool has_time = false;           ///< 00h-09h hold a date and time
  Addresses left_alone;            ///< RAM bytes that are not written, ascending
};

/// Refuses (Error) a parcel whose clock policy is `image` and whose image has no legal time, and
/// one that would write nothing.
WritePlan plan_writing(const Parcel& parcel);

}  // namespace rtcmend
