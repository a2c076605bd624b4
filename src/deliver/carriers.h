#pragma once

#include "deliver/plan.h"

namespace rtcmend {

// One source file a way: what writes, and what reads where the way can.

Delivery boot_floppy(const Parcel& parcel, const WritePlan& plan);
Delivery dos_program(const Parcel& parcel, const WritePlan& plan);

}  // namespace rtcmend
