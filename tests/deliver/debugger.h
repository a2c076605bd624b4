#pragma once

#include <string>

#include "deliver/old_machine.h"

namespace rtcmend::test {

/// The DOS debugger on a machine of tests, as far as scripts use it: E, F, M, G, D, O, Q. Any other
/// line, and one that it cannot read to its end, gets its "^ Error" and does nothing. The memory
/// and the registers are what they are: a test fills them with rubbish first (fresh_debugger()).
/// Returns what the debugger would print, registers and dumps, each line behind its prompt.
std::string debug_session(OldMachine& machine, const std::string& script);

/// As it stands when it has just been started, everything it does not promise full of rubbish.
void fresh_debugger(OldMachine& machine, Dice& dice);

}  // namespace rtcmend::test
