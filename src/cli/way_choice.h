#pragma once

#include <iosfwd>
#include <set>
#include <string>

#include "cli/options.h"
#include "deliver/openings.h"

namespace rtcmend {

/// Asks what still works at the old machine, a question at a time: y or n, Enter is no; of a floppy
/// drive also which floppies it reads. The end of the input answers the rest with no.
Means ask_what_is_open(std::istream& answers, std::ostream& questions);

/// Which ways are open, the best first, what each cannot do, and the command that takes it.
std::string openings_text(const Means& means, const std::string& dump);

}  // namespace rtcmend
