#pragma once

#include <optional>
#include <string_view>

#include "layout/field.h"

namespace rtcmend {

/// What a person means by a word for this field: "y" or "off" for a flag, "640K" or "1 MB" for a
/// number of KiB, "1.44 MB", "1440k" or "vga" for a choice. Case, blanks and quotation marks do not
/// count. Nothing where the word fits no value, or more than one.
std::optional<Value> spoken_value(const Field& field, std::string_view word);

}  // namespace rtcmend
