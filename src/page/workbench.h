#pragma once

#include <string>
#include <string_view>

#include "desk/shelf.h"
#include "page/board_bench.h"
#include "render/json.h"

namespace rtcmend {

/// What the page in the browser talks to: the built-in layouts and those that were read since, and
/// the board at a port of the page. It keeps no image: each call brings the one it is about, so
/// that undoing is the page's own business.
class Workbench {
 public:
  /// One call: {"do": VERB, ...} in, {"ok": true, ...} out, or {"ok": false, "where", "what",
  /// "try"} for what the core refuses. Never throws. docs/page.md lists the verbs.
  std::string call(std::string_view request);

 private:
  Json answer(const Json& request);

  Shelf shelf_;
  BoardBench board_;
};

}  // namespace rtcmend
