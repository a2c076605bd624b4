#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "forms/form.h"
#include "identify/identify.h"
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

/// The built-in layouts that have something to say about an image: those of its size, or all when
/// its halves repeat each other (outlines, layout/library.h).
const std::vector<Layout>& layouts_about(const Image& image);

/// The layout for a dump: the one given, else the one the dump names, else the one the bytes point
/// to. Throws Error when none is clear, listing the candidates, or when it is for another size.
Layout layout_for(const Dump& dump, const std::string& name, const std::string& given);

}  // namespace rtcmend
