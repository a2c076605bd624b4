#pragma once

#include <map>
#include <string>

namespace rtcmend {

/// What lies on the workbench page when it is opened.
struct OnThePage {
  std::string name;                        ///< the dump's file, without its folder
  std::string content;                     ///< the file's bytes as they are
  std::map<std::string, std::string> how;  ///< how it is written down, by the reader's keys: "form"
  std::string layout;       ///< the layout to read it by; empty = the page identifies it
  std::string layout_file;  ///< the text of a layout of one's own, if `layout` is from a file
};

/// The page with a dump on it: the bytes stand in the file and go nowhere. Throws Error (input)
/// when `page` is no workbench page.
std::string page_with(const std::string& page, const OnThePage& given);

}  // namespace rtcmend
