#pragma once

#include <string_view>
#include <utility>

#include "judge/examine.h"
#include "layout/load.h"
#include "render/card.h"
#include "support/sound_images.h"

namespace rtcmend::test {

/// A layout that fits on a screen: a choice, an escape, a unit, a long label, a password, a sum.
inline Layout small_layout() {
  return load_layout(R"({"layout": "small", "title": "A small layout", "fields": [
    {"id": "floppy_a", "label": "First floppy drive", "group": "drives", "at": "10",
     "bits": [7, 4], "choice": {"0": "none", "4": "1.44M"}, "source": "RBIL61 C0007"},
    {"id": "disk_0_type", "label": "First fixed disk, type", "group": "drives", "at": "12",
     "bits": [7, 4], "number": {}, "escape": {"when": 15, "at": "19", "range": [16, 255]},
     "source": "RBIL61 C0014"},
    {"id": "base_memory_kib", "label": "Base memory", "group": "memory", "at": "15-16",
     "order": "low-first", "number": {"unit": "KiB"}, "source": "RBIL61 CMOS 15h"},
    {"id": "start_status", "label": "What the self-test found at the last start",
     "group": "memory", "at": "0E", "number": {}, "source": "RBIL61 C0005", "volatile": true},
    {"id": "century", "label": "Century", "group": "memory", "at": "32", "bcd": {},
     "source": "RBIL61 CMOS 32h"},
    {"id": "word", "label": "Password", "group": "locks", "at": "38-3F", "private": {},
     "source": "common practice, no source"}],
    "checks": [{"id": "sum-10-2d", "sum": {"width": 16}, "over": ["10-2D"],
      "stored": {"at": "2E", "order": "high-first"}, "source": "RBIL61 CMOS 2Eh"}],
    "notes": ["Made for the tests."], "sources": ["RBIL61"]})",
                     "small", [](std::string_view) { return std::string_view(); });
}

/// An examined dump that keeps its parts together.
struct Shown {
  explicit Shown(const Image& image, Layout under = small_layout())
      : dump{image, Form::raw, "", ""},
        layout(std::move(under)),
        examination(examine(dump.image, layout)) {}
  Shown(const Shown&) = delete;
  Shown& operator=(const Shown&) = delete;
  Card card() const { return {name, dump, layout, examination}; }

  std::string name = "dump.bin";
  Dump dump;
  Layout layout;
  Examination examination;
};

}  // namespace rtcmend::test
