#pragma once

#include <string>
#include <string_view>

#include "base/advice.h"

namespace rtcmend {

/// How an act is done on the command line: "rtcmend amend DUMP --clock now -o OUT", or "--form
/// hex". DUMP, FOUND and OUT stand for names that the reader knows.
std::string command_for(const Act& act);

/// Advice as sentences, each with the command that does it: "Set the clock ("rtcmend amend DUMP
/// --clock now -o OUT")."
std::string advice_text(const Advice& advice);

/// The same for the line behind a refusal: parts by semicolons, no full stop, no quotation marks.
std::string try_text(const Advice& advice);

}  // namespace rtcmend
