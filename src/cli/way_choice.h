#pragma once

#include <iosfwd>
#include <set>
#include <string>

#include "cli/options.h"
#include "deliver/openings.h"

namespace rtcmend {

/// Asks what still works at the old machine, a question at a time: y or n, Enter is no. The end of
/// the input answers the rest with no.
std::set<Have> ask_what_is_open(std::istream& answers, std::ostream& questions);

/// Which ways are open, the best first, and what each cannot do.
std::string openings_text(const std::set<Have>& have, const std::string& dump);

}  // namespace rtcmend
