#pragma once

#include <utility>

#include "render/json.h"

namespace rtcmend {

/// One object for each entry of a list; an empty list stays a list.
template <typename List, typename Render>
Json list_json(const List& list, Render render) {
  Json json = Json::array();
  for (const auto& entry : list) json.push_back(render(entry));
  return json;
}

}  // namespace rtcmend
