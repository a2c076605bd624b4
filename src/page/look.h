#pragma once

#include <vector>

#include "judge/examine.h"
#include "layout/layout.h"
#include "render/json.h"

namespace rtcmend {

/// Judges an image as the command line does: the examination, and the faults of the dump as a
/// whole. A sound image needs no other layouts to vouch for it; `library` holds this one too.
Examination judged(const Image& image, const Layout& layout, const std::vector<Layout>& library);

/// All that the page draws for an image: `layout`, `sound`, `fit`, `clock`, `registers`, `groups`,
/// `plan`, `fields`, `checks`, `findings`, `forecast`.
Json look_json(const Image& image, const Layout& layout, const Examination& examination);

}  // namespace rtcmend
