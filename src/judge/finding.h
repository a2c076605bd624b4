#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/ranges.h"

namespace rtcmend {

/// How much a finding weighs.
enum class Severity {
  fault,  ///< impossible, or a check that does not hold: the image is not sound
  doubt,  ///< possible, but look at it
  note,   ///< worth knowing
};

/// One thing noticed about a dump.
struct Finding {
  std::string id;  ///< stable, for machines: "check-mismatch"
  Severity severity = Severity::note;
  Addresses at;        ///< the bytes it is about; may be empty
  std::string text;    ///< what was seen, in plain words
  std::string remedy;  ///< what to do
  std::string source;  ///< where the rule is published, or its standing
};

std::string_view name(Severity severity);

}  // namespace rtcmend
