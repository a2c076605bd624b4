#pragma once

#include "render/json.h"
#include "render/memory_plan.h"

namespace rtcmend {

/// The groups of the layout's fields, in the order of their first appearance: [{name, letter}].
Json groups_json(const MemoryPlan& plan);

/// One entry a byte, for the memory plan: [{at, text, owner, group, words, fields, over, stored,
/// known, concealed, blamed}]. `owner` is "clock", "alarm", "register", "group", "check" or
/// "nobody"; `group` the group's place in groups_json, or null. `text` is "2F", "??" or "**".
Json cells_json(const MemoryPlan& plan, const Image& image, const Layout& layout);

}  // namespace rtcmend
