#pragma once

#include <string_view>

namespace rtcmend {

/// The style sheet of the bench sheet (sheet.css), built in. It stands on record_card_css().
std::string_view sheet_css();

}  // namespace rtcmend
