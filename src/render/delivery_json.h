#pragma once

#include <string>
#include <vector>

#include "deliver/delivery.h"
#include "deliver/openings.h"
#include "judge/finding.h"
#include "render/json.h"

namespace rtcmend {

/// What a carrier was made for, with the carrier itself.
struct Carried {
  std::string output;  ///< the file written
  std::string what;    ///< "boot floppy, 1.44M, for at"
  Way way;
  const Delivery& delivery;
};

/// `output`, `way`, `bytes`, `keystrokes`, `steps`, `cautions`, `sheet`.
Json carried_json(const Carried& carried);

/// Which ways are open, the best first.
Json openings_json(const std::vector<Opening>& openings);

/// `ways` [{`way`, `captures`, `bytes`, `keystrokes`, `keystrokes_per_byte`, `least_keystrokes`,
/// `least_because`}]
Json ways_json(const std::vector<WayFigures>& figures);

}  // namespace rtcmend
