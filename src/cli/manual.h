#pragma once

#include <string>

namespace rtcmend {

/// The manual page in the language of man(1), section 1: from the guide, the commands and their
/// options as declared, and the cautions, so that it says what the program says.
std::string manual_page();

}  // namespace rtcmend
