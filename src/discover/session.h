#pragma once

#include <string>
#include <string_view>
#include <utility>
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
  std::vector<std::string> mixed;  ///< dumps with several settings changed at once
};

/// Reads {"layout": ..., "steps": [{"label": ..., "value": ..., "dump": ...}]}; a step without a
/// label is a start with nothing changed, one with "values": {setting: value, ...} has several
/// settings changed at once. Throws Error with the JSON path.
SessionFile parse_session(std::string_view text, const std::string& where);

/// A setting and its value.
using Changed = std::vector<std::pair<std::string, std::string>>;

/// A session's text before its first step.
std::string new_session(const std::string& layout);
/// The text with one step more: nothing, one setting or several changed. Throws Error like
/// parse_session().
std::string with_step(std::string_view text, const std::string& where, const Changed& changed,
                      const std::string& dump);
/// The text without its last step, and the dump that it named. Refuses (Error) where there is none.
std::pair<std::string, std::string> without_last_step(std::string_view text,
                                                      const std::string& where);

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
