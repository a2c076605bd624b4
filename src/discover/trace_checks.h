#pragma once

#include <optional>
#include <span>
#include <vector>

#include "discover/trace.h"

namespace rtcmend {

/// Fills in the checks that the dumps of a session prove, and what is to be noted about them.
/// Returns the number of a step that the check of all other dumps proves wrong, and that the
/// session can do without.
std::optional<std::size_t> find_checks(const std::vector<Step>& steps, Question question,
                                       const Stirring& stirring, std::span<const Image> mixed,
                                       const Watch& watch, Trace& trace);

/// Takes the checks of a layout that hold in every dump, and notes the others.
void take_known_checks(const std::vector<Step>& steps, const std::vector<Check>& known,
                       Trace& trace);

}  // namespace rtcmend
