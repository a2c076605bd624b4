#pragma once

#include <string_view>

#include "audit/audit.h"

namespace rtcmend {

/// What a collector asks of a dump: is it worth keeping?
enum class Worth {
  proven,    ///< a check holds: these are a machine's settings, whatever its clock says
  unproven,  ///< readable, and nothing says that it is right
  broken     ///< the settings are not what the firmware left, or the dump was misread
};

/// "proven", "unproven", "broken".
std::string_view name(Worth worth);

/// By the standing of the dump and of the settings; the clock has no say.
Worth worth_of(const Verdict& verdict);

/// Why, in a word or three, at most `longest_reason` letters: what tells most of all that was
/// found. "sound" when nothing is to be mended.
std::string_view reason_of(const Verdict& verdict);
inline constexpr std::size_t longest_reason = 14;

}  // namespace rtcmend
