#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/image.h"
#include "chip/calendar.h"
#include "desk/shelf.h"
#include "forms/form.h"
#include "judge/finding.h"
#include "layout/layout.h"
#include "render/json.h"
#include "repair/provenance.h"

namespace rtcmend {

/// A word of the request; empty when it is not there.
std::string word(const Json& request, const char* key);
/// Whether a key says true.
bool told(const Json& request, const char* key);
/// The request's image.
Image image_of(const Json& request);
/// The request's layout, from the shelf. Refuses (Error) an unknown one.
Layout layout_of(const Json& request, const Shelf& shelf);
/// What is wrong with the reading of the dump that the request's image began as.
std::vector<Finding> reading_of(const Json& request, const Layout& layout, const Shelf& shelf);
/// What the causes of failed checks are weighed by. Letters beside bytes that were changed since
/// say nothing.
Provenance provenance_in(const Json& request);
/// The dump as it was read, as the page keeps it: {image, form, text, mirrored, misread,
/// sealed_anyway, again}; `again` may become an image, or a list of them.
Json read_json(const Dump& dump);
/// The dump in `content`, in `form` when one is given.
Dump dump_of(const Json& request, const Shelf& shelf);
/// The time in `time`. Refuses (Error) what the clock cannot be set to.
DateTime time_of(const Json& request);

}  // namespace rtcmend
