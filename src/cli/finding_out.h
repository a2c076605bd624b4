#pragma once

#include <string_view>

#include "layout/field.h"

namespace rtcmend {

/// How a person finds out, at the machine, what a field must say; empty where only its handbook
/// knows.
std::string_view how_to_find_out(const Field& field);

}  // namespace rtcmend
