#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "layout/layout.h"

namespace rtcmend {

/// Finds an included part by its name ("parts/at-core"); empty when there is none.
using PartSource = std::function<std::string_view(std::string_view name)>;

/// Makes a layout from JSON text: checked against the schema, then for meaning (fields inside the
/// chip, no bit claimed twice, no check over its own stored bytes, no circle of includes). Throws
/// Error (input) whose `where` is the file and the JSON path. `check_schema` false skips the schema
/// for text that the tests have proven.
Layout load_layout(std::string_view text, const std::string& where, const PartSource& parts,
                   bool check_schema = true);

}  // namespace rtcmend
