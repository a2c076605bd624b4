#pragma once

#include <string>

#include "board/wiring.h"
#include "cli/dump_source.h"
#include "cli/output.h"
#include "cli/print.h"

namespace rtcmend {

/// The words of `board`.
struct BoardOptions {
  std::string what;
  DumpSource source;  ///< what is written, and the layout to judge by
  Output output;      ///< where goes what was read, before anything else is done
  std::string port, part, size, off, length, log;
  bool set_clock = false, yes = false, unsound_anyway = false;
  Voice voice;
};

int read_at_board(const BoardOptions& given);
int write_at_board(const BoardOptions& given);
int hold_at_board(const BoardOptions& given);
int clock_at_board(const BoardOptions& given);

Json wiring_json(const BoardFit* part);

}  // namespace rtcmend
