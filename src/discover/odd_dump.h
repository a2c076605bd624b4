#pragma once

#include <span>

#include "discover/solve.h"

namespace rtcmend {

/// Looks for a check that holds in all dumps but one, after `whole`, the search over all of them,
/// found none: groups of dumps are left out in turn, and what is then found must hold in all that
/// were left out but one. It must be no luck even when any one dump could have been passed over.
/// Returns the search without that dump, or `whole`.
Solution solve_without_odd(std::span<const Image> dumps, const Question& question,
                           const Watch& watch, double list_up_to, Solution whole);

}  // namespace rtcmend
