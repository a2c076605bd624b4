#pragma once

#include <cstdint>

#include "deliver/program.h"
#include "deliver/runs.h"

namespace rtcmend {

/// Tells a balancing program (asm/debugger_balancer.asm, asm/keyboard_balancer.asm) where in memory
/// it finds the byte that spoils and the stretch under the balance. list_at: where the list of runs
/// begins; the spoiling one is its first. Needs Runs::balanced.
void fill_stretch(Program& program, const Runs& runs, std::uint16_t list_at);

}  // namespace rtcmend
