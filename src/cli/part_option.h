#pragma once

#include <string>

#include "base/image.h"
#include "chip/part.h"
#include "cli/options.h"
#include "judge/examine.h"
#include "layout/layout.h"

namespace rtcmend {

/// --part.
void add_part(Options& options, std::string& part);
/// Refuses (Error), before any work is done, an unknown part with the nearest numbers.
void check_part(const std::string& part);

/// The part with this number. Refuses (Error) an unknown one with the nearest numbers.
const Part& part_given(const std::string& name);

/// The examination with what that part changes. An empty part changes nothing. Refuses (Error) an
/// unknown one with the nearest numbers.
Examination with_part(Examination examination, const std::string& part, const Image& image,
                      const Layout& layout);

}  // namespace rtcmend
