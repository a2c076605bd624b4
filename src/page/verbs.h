#pragma once

#include "desk/shelf.h"
#include "render/json.h"

/// The calls of the page, one a verb. Each takes the request and the layouts at hand and returns
/// the answer; Error goes through to the caller. Where a request is about an image it carries
/// `image` (image_text.h), `layout` (id) and `read`: the dump as it was read (read_json(),
/// request.h), or null for an image made from nothing. What is wrong with the reading is judged by
/// that alone.
namespace rtcmend::verb {

/// What there is to choose from: {layouts, forms, ways}.
Json offer(const Json& request, Shelf& shelf);
/// {content (hex), name, form}, or {image} -> {image, read, form, note, layout (id, or null when
/// nothing is clear), begin (the layout to begin with then: the clock alone), identification,
/// faults}. A machine description is composed, and {composed: true}.
Json open(const Json& request, Shelf& shelf);
/// {image, layout} -> look_json.
Json look(const Json& request, Shelf& shelf);
/// {image, layout} -> {suspects, none_of_these}: repairs that would explain failed checks.
Json suspects(const Json& request, Shelf& shelf);

// Changes: each answers {image}. None of them seals.

/// {field, entry}: the field set as --set does, and what follows from it.
Json set(const Json& request, Shelf& shelf);
/// {at, digits}: one byte, as --byte does.
Json byte(const Json& request, Shelf& shelf);
/// {time}: the clock set and running, the century with it; told: that it counts otherwise now.
Json clock(const Json& request, Shelf& shelf);
/// Every check recomputed.
Json seal(const Json& request, Shelf& shelf);
/// {suspect}: a repair made.
Json accept(const Json& request, Shelf& shelf);
/// {what}: "shift=1", "nibbles", "bit-order"; needs no layout. Answers {image, read}:
/// what was misread is judged anew by the bytes that were put right.
Json undo_misread(const Json& request, Shelf& shelf);

/// {content (hex), name, form}: a second dump as what was found -> {equal, differences, form, found
/// (its image)}.
Json compare(const Json& request, Shelf& shelf);
/// {layout, time} or {description, time} -> {image, layout, note, afterComposing}.
Json compose(const Json& request, Shelf& shelf);
/// {content (hex), name} -> {layout (id)}: a layout file, added to the library.
Json read_layout(const Json& request, Shelf& shelf);

// Questions.

/// {codes: "161 163"}, and an image or none -> explain_json: what the numbers on a screen say, tied
/// to what the image shows.
Json explain(const Json& request, Shelf& shelf);
/// {disk: "40M", "615 4 17" or "type 2"; layout: id, or none} -> drives_json.
Json drives(const Json& request, Shelf& shelf);

// Files to take away: each answers {content (hex), ...}. Unless `anyway` is true, an image that is
// not fit to be written is refused, as on the command line.

/// {form, fill, note} -> {content}.
Json save(const Json& request, Shelf& shelf);
/// {name, form, note, cell, sources} -> {html}: the bench sheet, also of an image that is not
/// sound.
Json sheet(const Json& request, Shelf& shelf);
/// {way, disk, clock, whenLost, codes} -> {content, code, leftAlone, and the keys of carried_json}.
Json deliver(const Json& request, Shelf& shelf);
/// {way, disk, size}: what reads a chip out; needs no image.
Json capture(const Json& request, Shelf& shelf);

}  // namespace rtcmend::verb
