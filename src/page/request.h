#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/image.h"
#include "chip/calendar.h"
#include "forms/form.h"
#include "layout/layout.h"
#include "render/json.h"

namespace rtcmend {

/// A word of the request; empty when it is not there.
std::string word(const Json& request, const char* key);
/// Whether a key says true.
bool told(const Json& request, const char* key);
/// The request's image.
Image image_of(const Json& request);
/// The request's layout, out of the library. Refuses (Error) an unknown one.
const Layout& layout_of(const Json& request, const std::vector<Layout>& library);
/// Refuses (Error) a layout for another size than the image's.
void need_fitting(const Image& image, const Layout& layout);
/// The dump in `content`, in `form` when one is given.
Dump dump_of(const Json& request, const std::vector<Layout>& library);
/// The time in `time`. Refuses (Error) what the clock cannot be set to.
DateTime time_of(const Json& request);

}  // namespace rtcmend
