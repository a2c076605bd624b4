#pragma once

#include <string>
#include <string_view>

#include "base/advice.h"
#include "base/ranges.h"
#include "judge/finding_kind.h"

namespace rtcmend {

/// One thing noticed about a dump.
struct Finding {
  FindingKind kind;
  Addresses at;        ///< the bytes it is about; may be empty
  std::string text;    ///< what was seen, in plain words
  Advice advice;       ///< what to do
  std::string source;  ///< where the rule is published, or its standing

  std::string_view id() const { return kind_of(kind).id; }
  Severity severity() const { return kind_of(kind).severity; }
  Family family() const { return kind_of(kind).family; }
  Effect effect() const { return kind_of(kind).effect; }
  bool is_fault() const { return severity() == Severity::fault; }
};

}  // namespace rtcmend
