#pragma once

#include <string>
#include <vector>

#include "deliver/delivery.h"
#include "judge/finding.h"
#include "render/delivery_json.h"
#include "terminal/ink.h"

namespace rtcmend {

/// What was written, what to do with it, what to beware of, and the sheet for typing.
std::string carried_text(const Carried& carried, const Ink& ink);

/// What a delivery adds: the code that the old machine will show, and what stays as it is.
std::string written_bytes_text(const Delivery& delivery);

/// Every way with its size and its keystrokes, beside what no text could do without.
std::string ways_text(const std::vector<WayFigures>& figures);

}  // namespace rtcmend
