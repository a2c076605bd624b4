#pragma once

#include "deliver/plan.h"

namespace rtcmend {

// What each way hands out; the steps and cautions that go with it are in guidance.h.

Delivery boot_floppy(const Parcel& parcel, const WritePlan& plan);
Delivery dos_program(const Parcel& parcel, const WritePlan& plan);
Delivery debugger_script(const Parcel& parcel, const WritePlan& plan);
Delivery basic_listing(const Parcel& parcel, const WritePlan& plan);
Delivery keyboard_program(const Parcel& parcel, const WritePlan& plan);

Delivery floppy_capture(const CaptureOrder& order);
Delivery dos_capture(const CaptureOrder& order);
Delivery debugger_capture(const CaptureOrder& order);
Delivery basic_capture(const CaptureOrder& order);
Delivery keyboard_capture(const CaptureOrder& order);

/// Refuses (Error) what only the floppy and the DOS program can: to look first, to show codes.
void refuse_without_program(const Parcel& parcel);

}  // namespace rtcmend
