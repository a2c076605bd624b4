#pragma once

#include "judge/examine.h"
#include "layout/layout.h"
#include "render/json.h"

namespace rtcmend {

/// The groups of the layout's fields, in the order of their first appearance: [{name, letter}].
Json groups_json(const Layout& layout);

/// One entry a byte, for the memory plan: [{at, text, owner, group, words, fields, over, stored,
/// known, concealed, blamed}]. `owner` is "clock", "alarm", "register", "group", "check" or
/// "nobody"; `group` the group's place in groups_json, or null. `text` is "2F", "??" or "**".
Json plan_json(const Image& image, const Layout& layout, const Examination& examination);

}  // namespace rtcmend
