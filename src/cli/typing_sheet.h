#pragma once

#include <string>

#include "deliver/delivery.h"

namespace rtcmend {

/// What goes into the file: the carrier itself, or, where it is typed by a sheet, the sheet; as a
/// page to be printed when the file's name ends in .html.
std::string file_of(const Delivery& delivery, const std::string& output);

}  // namespace rtcmend
