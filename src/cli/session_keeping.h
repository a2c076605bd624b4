#pragma once

#include <string>
#include <vector>

#include "cli/print.h"

namespace rtcmend {

/// What a person does at the bench with a session file between two dumps.
struct SessionOrder {
  std::string act;                 ///< "new", "add" or "undo"
  std::vector<std::string> words;  ///< behind it: SESSION; for add a dump and SETTING=VALUE ...
  std::string layout, form;
  bool force = false;
  Voice voice;
};

bool is_session_act(const std::string& word);

/// Begins a session, adds a dump to it, or takes the last one back, and says where it stands.
/// Throws Error.
int keep_session(const SessionOrder& order);

}  // namespace rtcmend
