#pragma once

#include <string>
#include <vector>

#include "cli/options.h"
#include "discover/question.h"

namespace rtcmend {

/// What the user knows about a check, as typed.
struct SearchOptions {
  std::vector<std::string> kinds;  ///< sum, xor, crc, balance; empty = all
  int width = 0;                   ///< 0 = both
  std::string over, at;
  std::vector<std::string> holes;
};

/// --kind, --width, --over, --at and --hole.
void add_search(Options& options, SearchOptions& search);

/// Reads them, and adds the checks of the built-in layouts as familiar ones. Throws Error that
/// names the option.
Question question_from(const SearchOptions& search);

}  // namespace rtcmend
