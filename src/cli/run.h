#pragma once

namespace rtcmend {

/// The whole program: picks the command, runs it, turns refusals into messages. Returns the exit
/// code: 0 done and sound or equal, 1 done but not, 2 wrong use or bad input, 3 the file system
/// refused.
int run(int argc, const char* const* argv);

}  // namespace rtcmend
