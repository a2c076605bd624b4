#pragma once

#include <string>
#include <vector>

#include "chip/clock.h"
#include "forms/form.h"
#include "judge/finding.h"
#include "judge/standing.h"
#include "layout/layout.h"

namespace rtcmend {

/// The standing as a sentence, and how much was found: "Settings proven; the clock must be set. (1
/// fault, 2 notes)"
std::string verdict(const Standing& standing, const std::vector<Finding>& findings);
/// Form, size and what is missing: "raw, 64 bytes; 14 of them unknown (00-0D)".
std::string dump_words(const Dump& dump, const Layout& layout);
/// " (from mine.json, not built in)": by whose word an image is judged; empty for a built-in
/// layout.
std::string from_a_file(const Layout& layout);
/// A sentence of its own, "By the layout mine (from mine.json, not built in)."; empty for a
/// built-in layout, so that it can stand above whatever is judged.
std::string whose_word(const Layout& layout);
/// Id, title, and that: "at: AT class, 64 bytes".
std::string layout_words(const Layout& layout);
/// "<1 %", "72 %", ">99 %": nothing that is only likely is ever called certain.
std::string odds_words(double odds);
/// Date, time and how the clock runs: "2031-05-14 09:30:00, Wednesday; running".
std::string clock_words(const ClockReading& clock);

}  // namespace rtcmend
