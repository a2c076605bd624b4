#pragma once

#include <string>

#include "chip/clock.h"
#include "judge/layout_evidence.h"
#include "render/json.h"

namespace rtcmend {

Json evidence_json(const LayoutEvidence& evidence);

/// The same in one sentence, for the notes of the layout: "Held against 41 dumps (14 different) on
/// 2026-11-30: sum-10-2d in 41; 9 fields, none with a value that has no meaning."
std::string evidence_note(const LayoutEvidence& evidence, const DateTime& when);

}  // namespace rtcmend
