// A session file, and a step of the command line.
#include "discover/session.h"

#include "base/error.h"
#include "target.h"

namespace rtcmend::fuzz {

void attempt(std::string_view input) {
  try {
    parse_step(input);
  } catch (const Error&) {
  }
  const SessionFile session = parse_session(input, "fuzz");
  for (const SessionEntry& entry : session.entries)
    must(!entry.dump.empty(), "every step names its dump");
}

}  // namespace rtcmend::fuzz
