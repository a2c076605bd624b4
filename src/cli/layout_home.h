#pragma once

#include <string>
#include <vector>

#include "desk/shelf.h"

namespace rtcmend {

/// The folder of one's own layouts: RTCMEND_LAYOUTS; else rtcmend/layouts in XDG_DATA_HOME, in
/// .local/share of the home folder, or in APPDATA on Windows. Empty when none of these is set.
std::string layout_home();

/// A layout that lies there.
struct KeptLayout {
  std::string path;
  Layout layout;
};

/// What lies there, by name. A file that is no good layout, or has the id of another, is left out
/// and named in `left_out`, in words; nothing there is the end of a command.
struct LayoutHome {
  std::vector<KeptLayout> kept;
  std::vector<std::string> left_out;
};
LayoutHome read_layout_home();

/// The built-in layouts and one's own. Read at the first call, which says on standard error what
/// was left out.
const Shelf& shelf_at_hand();

}  // namespace rtcmend
