#pragma once

#include <string>

#include "check/check.h"
#include "render/card.h"
#include "render/memory_plan.h"
#include "sheet/html.h"

namespace rtcmend {

/// Size of a cell in the drawing's own units.
inline constexpr int cell_width = 60, cell_height = 50;

/// One byte of the drawing, its upper left corner at (x, y): tint, label, value, and the marks for
/// damage, doubt and what is unknown. All of it can be told apart without colours.
Html cell(const PlannedByte& byte, const Card& card, const std::string& label, int x, int y);
/// What an owner is called inside a cell: a group's letter, or several; "check"; nothing.
std::string owner_label(const PlannedByte& byte);
/// The class that gives an owner its tint.
std::string tint_class(Owner owner, std::size_t group);

/// The line of a check under its bytes; neighbouring numbers have different dashes.
Html coverage_line(std::size_t check, int from, int to, int y);
/// The square where a check is stored: filled when it holds, crossed when it does not, empty when
/// it cannot be judged.
Html seal_mark(const CheckResult& result, int x, int y);

/// A mark alone, for the key.
Html strike_mark(int x, int y);
Html wave_mark(int x, int y);
Html ring_mark(int x, int y);
Html dashed_mark(int x, int y);

}  // namespace rtcmend
