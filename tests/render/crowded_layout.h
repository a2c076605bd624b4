#pragma once

#include "render/small_layout.h"

namespace rtcmend::test {

/// A layout with what the small one lacks: conditions, checks over one another, a number in pieces
/// that is only shown, a check with a password in it. Not sound on anything.
inline Layout crowded_layout() {
  return load_layout(
      R"({"layout": "crowded", "title": "A crowded layout", "fields": [
    {"id": "cylinders", "label": "Cylinders", "group": "drives", "number": {}, "read_only": true,
     "pieces": [{"at": "1E", "bits": [3, 0]}, {"at": "1D"}], "source": "measured"},
    {"id": "whole_type", "label": "Type", "group": "drives", "at": "20", "number": {},
     "escape": {"when": 255, "at": "21", "range": [1, 99]}, "source": "measured"},
    {"id": "copy_hour", "label": "Hour of the copy", "group": "copy", "at": "22", "bcd": {},
     "when": {"at": "23", "bits": [0, 0], "is": 1}, "source": "measured"},
    {"id": "word", "label": "Password", "group": "locks", "at": "38", "private": {},
     "source": "measured"}],
    "checks": [
    {"id": "sum-10-2d", "sum": {"width": 16}, "over": ["10-2D"],
     "stored": {"at": "2E", "order": "high-first"}, "source": "measured"},
    {"id": "xor-10-13", "xor": {}, "over": [{"range": "10-13", "when": {"at": "23", "is": 1}}],
     "stored": {"at": "30"}, "source": "measured"},
    {"id": "sum-34-35", "sum": {"width": 8}, "over": ["34-35"], "stored": {"at": "36"},
     "when": {"at": "23", "is": 2}, "source": "measured"},
    {"id": "word-check", "xor": {}, "over": ["37-38"], "stored": {"at": "39"}, "source": "measured"},
    {"id": "sum-3a", "sum": {"width": 8}, "over": ["3A", "3C"], "stored": {"at": "3B"},
     "source": "measured"}]})",
      "crowded", [](std::string_view) { return std::string_view(); });
}

/// A dump under the crowded layout.
struct Crowded : Shown {
  explicit Crowded(const Image& image) : Shown(image, crowded_layout()) {}
};

}  // namespace rtcmend::test
