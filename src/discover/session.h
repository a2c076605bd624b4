#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/image.h"

namespace rtcmend {

/// One dump of a session as its file names it.
struct SessionEntry {
  std::string setting;  ///< as the machine's setup calls it; empty: nothing was changed
  std::string value;    ///< the setting's value when the dump was taken
  std::string dump;     ///< the file
};

/// What a session file says.
struct SessionFile {
  std::string layout;  ///< id or file of a layout that is known to fit; empty = none
  std::vector<SessionEntry> entries;
};

/// Reads {"layout": ..., "steps": [{"label": ..., "value": ..., "dump": ...}]}; a step without a
/// label is a start with nothing changed. Throws Error with the JSON path.
SessionFile parse_session(std::string_view text, const std::string& where);

/// Reads "floppy_b=1.44M:dump1.bin". Throws Error (`where` --step).
SessionEntry parse_step(std::string_view text);

/// One dump of a session, read.
struct Step {
  std::string setting;
  std::string value;
  std::string name;  ///< of the dump, for messages
  Image image;
};

/// Steps of one setting at one value.
struct Visit {
  std::string setting;  ///< empty: nothing was changed
  std::string value;
  std::vector<std::size_t> steps;
};

/// A session in order: the visits of every setting, by first appearance.
std::vector<Visit> gather_visits(const std::vector<Step>& steps);

}  // namespace rtcmend
