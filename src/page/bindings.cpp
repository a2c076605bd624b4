// The border between the browser and the core: built by Emscripten only.
#include <emscripten/bind.h>

#include "page/workbench.h"

namespace {

/// embind hands over strings by value.
std::string call(rtcmend::Workbench& bench, const std::string& request) {
  return bench.call(request);
}

}  // namespace

EMSCRIPTEN_BINDINGS(rtcmend) {
  emscripten::class_<rtcmend::Workbench>("Workbench").constructor<>().function("call", &call);
}
