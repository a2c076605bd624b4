#pragma once

#include <string>
#include <vector>

#include "render/memory_plan.h"
#include "sheet/html.h"
#include "sheet/sheet.h"

namespace rtcmend {

/// None for a sheet that does not tell them: its parts then leave out ids and notes too.
using Sources = std::vector<std::string>;
/// What the meanings of clock bytes and registers rest on.
inline constexpr const char* chip_source = "MC146818A; DS12885";
/// The number of a source as a mark that leads to the list; empty for an unnamed one.
Html source_mark(const Sources& sources, const std::string& source);

/// One part of a sheet, with its heading.
struct SheetSection {
  const char* id;
  const char* heading;
  Html content;
};

// One function a part. Each takes what it shows and nothing else.

/// The drawing of the memory, an SVG with its description.
Html memory_drawing(const MemoryPlan& plan, const Card& card);
/// What the drawing's letters, lines and marks mean, and which bytes they are about.
Html memory_key(const MemoryPlan& plan, const Card& card);

Html clock_part(const ClockReading& clock);
Html registers_part(const Image& image, const Sources& sources);
Html fields_part(const Card& card, const MemoryPlan& plan, const Sources& sources);
/// How a check stands, in words.
std::string check_standing(const CheckResult& result);
Html checks_part(const Card& card, const Sources& sources);
Html findings_part(const Sheet& sheet, const Sources& sources);
/// Whether there is more to say about codes at power-on than that there are none.
bool has_codes(const Sheet& sheet);
Html codes_part(const Sheet& sheet, const Sources& sources);
/// The bytes for hands and for the camera of a phone, and above them what they are not.
Html copying_part(const Card& card);
/// The bytes as codes for the camera of a phone.
Html phone_part(const Card& card);
Html cautions_part();
Html plan_part(const CellPlan& plan);
Html sources_part(const Sheet& sheet, const Sources& sources);

/// A stretch that may be wider than a narrow screen: it scrolls by itself, also by keyboard.
Html wide(const std::string& label, const Html& content);
/// Addresses as bytes are written: "10-12, 2E".
Html bytes_text(const Addresses& addresses);

}  // namespace rtcmend
