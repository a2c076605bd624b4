#pragma once

#include <string>

#include "layout/layout.h"

namespace rtcmend {

/// A built-in layout by its id, or one from a file: a name with a slash or ending in .json is a
/// file, any other name is tried as an id first. Parts come from the library or from beside the
/// file.
Layout layout_named(const std::string& id_or_file);

/// The JSON that layout_named() would read, as it stands.
std::string layout_source(const std::string& id_or_file);

/// A layout file, schema and meaning checked. Throws Error with the JSON path.
Layout layout_from_file(const std::string& path);

}  // namespace rtcmend
