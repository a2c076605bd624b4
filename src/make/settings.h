#pragma once

#include <vector>

#include "base/image.h"
#include "chip/clock.h"
#include "layout/layout.h"
#include "make/amend.h"

namespace rtcmend {

/// The settings written into the image. Refuses (Error) an illegal value and a field set twice to
/// different values.
Image with_settings(const Image& image, const Layout& layout, const std::vector<Setting>& settings);

/// Which followers are brought into line.
enum class Followers {
  of_settings,  ///< only those of fields that were set: the rest of the image is not our business
  all           ///< every one: an image made from nothing
};

/// Fields that follow others derived from them, unless they were set. Refuses (Error) a follower
/// that was set to something else than what it follows from; both are named.
Image with_followers(const Image& image, const Layout& layout, const std::vector<Setting>& settings,
                     Followers which);

/// Clock set and running, the layout's century byte with it. In BCD on a 24-hour dial where PC
/// firmware keeps it, elsewhere as register B has it. Refuses (Error) a century among the
/// settings that is not the clock's.
Image with_clock(const Image& image, const Layout& layout, const std::vector<Setting>& settings,
                 const DateTime& time);

}  // namespace rtcmend
