#pragma once

#include <string>
#include <vector>

#include "deliver/delivery.h"
#include "judge/finding.h"
#include "render/ink.h"
#include "render/json.h"

namespace rtcmend {

/// What a carrier was made for, with the carrier itself.
struct Carried {
  std::string output;  ///< the file written
  std::string what;    ///< "boot floppy, 1.44M, for at-64"
  Way way;
  const Delivery& delivery;
};

/// What was written, what to do with it, what to beware of, and the sheet for typing.
std::string carried_text(const Carried& carried, const Ink& ink);
/// `output`, `way`, `bytes`, `keystrokes`, `steps`, `cautions`, `sheet`.
Json carried_json(const Carried& carried);

/// What a delivery adds: the code that the old machine will show, and what stays as it is.
std::string written_bytes_text(const Delivery& delivery);

/// Every way with its size and its keystrokes, beside what no text could do without.
std::string ways_text(const std::vector<WayFigures>& figures);
/// `ways` [{`way`, `captures`, `bytes`, `keystrokes`, `keystrokes_per_byte`, `least_keystrokes`,
/// `least_because`}]
Json ways_json(const std::vector<WayFigures>& figures);

}  // namespace rtcmend
