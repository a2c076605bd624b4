#pragma once

#include <string_view>

namespace rtcmend {

/// The palette and type that the bench sheet and the workbench page share (record_card.css), as CSS
/// custom properties. Defined in a source that the build generates.
std::string_view record_card_css();

}  // namespace rtcmend
