#pragma once

#include <vector>

#include "layout/layout.h"
#include "render/json.h"

/// The calls of the page, one a verb. Each takes the request and the layouts at hand and returns
/// the answer; Error goes through to the caller. Where a request is about an image it carries
/// `image` (image_text.h) and `layout` (id).
namespace rtcmend::verb {

/// What there is to choose from: {layouts, forms, ways}.
Json offer(const Json& request, std::vector<Layout>& library);
/// {content (hex), name, form}, or {image} -> {image, form, note, layout (id or null),
/// identification, faults}. A machine description is composed, and {composed: true}.
Json open(const Json& request, std::vector<Layout>& library);
/// {image, layout} -> look_json.
Json look(const Json& request, std::vector<Layout>& library);
/// {image, layout} -> {suspects}: repairs that would explain failed checks.
Json suspects(const Json& request, std::vector<Layout>& library);

// Changes: each answers {image}. None of them seals.

/// {field, entry}: the field set as --set does, and what follows from it.
Json set(const Json& request, std::vector<Layout>& library);
/// {at, digits}: one byte, as --byte does.
Json byte(const Json& request, std::vector<Layout>& library);
/// {time}: the clock set and running, the century with it.
Json clock(const Json& request, std::vector<Layout>& library);
/// Every check recomputed.
Json seal(const Json& request, std::vector<Layout>& library);
/// {suspect}: a repair made.
Json accept(const Json& request, std::vector<Layout>& library);
/// {what}: "shift=1", "nibbles", "bit-order", "mirror"; needs no layout.
Json undo_misread(const Json& request, std::vector<Layout>& library);

/// {content (hex), name, form}: a second dump as what was found -> {equal, differences, name}.
Json compare(const Json& request, std::vector<Layout>& library);
/// {layout, time} or {description, time} -> {image, layout, note, afterComposing}.
Json compose(const Json& request, std::vector<Layout>& library);
/// {content (hex), name} -> {layout (id)}: a layout file, added to the library.
Json read_layout(const Json& request, std::vector<Layout>& library);

// Files to take away: each answers {content (hex), ...}. Unless `anyway` is true, an image that is
// not fit to be written is refused, as on the command line.

/// {form, fill, note} -> {content}.
Json save(const Json& request, std::vector<Layout>& library);
/// {name, form, note} -> {html}: the bench sheet, also of an image that is not sound.
Json sheet(const Json& request, std::vector<Layout>& library);
/// {way, disk, clock, whenLost} -> {content, code, leftAlone, and the keys of carried_json}.
Json deliver(const Json& request, std::vector<Layout>& library);
/// {way, disk, size}: what reads a chip out; needs no image.
Json capture(const Json& request, std::vector<Layout>& library);

}  // namespace rtcmend::verb
