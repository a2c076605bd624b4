#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "layout/layout.h"

namespace rtcmend {

/// Ids of the built-in layouts, sorted.
std::vector<std::string> built_in_layouts();
/// The JSON text of a built-in layout or part; refuses (Error) an unknown id with the nearest ones.
std::string_view built_in_text(std::string_view id);
/// Text of any embedded file ("chips", "schema/layout"); empty when there is none.
std::string_view embedded_text(std::string_view name);
/// A built-in layout. Each call makes it anew; keep the result. Refuses like built_in_text().
Layout built_in_layout(std::string_view id);
/// Every built-in layout without the words that only people read (layout/packed.h): enough to
/// identify and to evaluate checks, and made once.
const std::vector<Layout>& built_in_outlines();
/// The fixed-disk types that practically all AT-class firmware shares (TechHelp).
const std::vector<DriveType>& common_drive_types();

}  // namespace rtcmend
