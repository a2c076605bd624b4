#pragma once

#include <string>

#include "layout/layout.h"

namespace rtcmend {

/// A built-in layout by its id, or one from a file: a name with a slash or ending in .json is a
/// file, any other name is tried as an id first. Parts come from the library or from beside the
/// file.
Layout layout_named(const std::string& id_or_file);

/// The file that `file` names in its text: a plain file in its folder or below, never up or
/// elsewhere, whatever links say. The folder of "-" is the present one. Refuses (Error) any other.
std::string file_named_in(const std::string& file, const std::string& name);

/// The layout that a description or a session names: a built-in one, or such a file.
Layout layout_named_in(const std::string& file, const std::string& id_or_file);

/// The JSON that layout_named() would read, as it stands.
std::string layout_source(const std::string& id_or_file);

/// A layout file, schema and meaning checked. Throws Error with the JSON path.
Layout layout_from_file(const std::string& path);

}  // namespace rtcmend
