#pragma once

#include <string>

#include "deliver/old_machine.h"

namespace rtcmend::test {

/// The commands of the DOS debugger that scripts use (E, F, G, D, O, I, Q), on a machine of tests.
/// Unknown commands fail the test. Returns what the debugger would print, registers and dumps.
std::string debug_session(OldMachine& machine, const std::string& script);

}  // namespace rtcmend::test
