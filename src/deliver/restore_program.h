#pragma once

#include <string>
#include <string_view>

#include "deliver/plan.h"

namespace rtcmend {

/// The program that shows, asks, writes, reads back and reports (asm/restore.inc), filled in.
/// name: "restore_floppy" or "restore_dos". Refuses (Error) an occasion that the layout's checks
/// cannot judge, and codes for an occasion at which nobody stands by.
std::string restore_program(std::string_view name, const Parcel& parcel, const WritePlan& plan);

/// What the program shows before it asks: layout, time, fields, bytes that stay, code; lines of at
/// most 79 characters that end with CR LF.
std::string announcement(const Parcel& parcel, const WritePlan& plan);

}  // namespace rtcmend
