#pragma once

#include <string>
#include <vector>

#include "chip/part.h"
#include "render/json.h"

namespace rtcmend {

Json chips_json(const std::vector<Part>& parts);

}  // namespace rtcmend
