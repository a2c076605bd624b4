#pragma once

#include "deliver/plan.h"

namespace rtcmend {

// One source file a way: what writes, and what reads where the way can.

Delivery boot_floppy(const Parcel& parcel, const WritePlan& plan);
Delivery dos_program(const Parcel& parcel, const WritePlan& plan);
Delivery debugger_script(const Parcel& parcel, const WritePlan& plan);

Delivery debugger_capture(const CaptureOrder& order);

/// Refuses (Error) an occasion that only the floppy and the DOS program know.
void refuse_when_lost(const Parcel& parcel);

}  // namespace rtcmend
