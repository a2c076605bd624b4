#pragma once

#include <string>
#include <vector>

#include "check/check.h"
#include "judge/finding.h"
#include "judge/standing.h"
#include "terminal/ink.h"

namespace rtcmend {

/// The verdict in its colour, folded from `column` on.
std::string verdict(const Standing& standing, const std::vector<Finding>& findings, const Ink& ink,
                    std::size_t column = 0);
/// A line or two for each check: where it is stored, what it is, how it stands.
std::string checks_text(const std::vector<CheckResult>& checks, const Ink& ink);
/// What was noticed and what to do about it; empty when there is nothing.
std::string findings_text(const std::vector<Finding>& findings, const Ink& ink);

}  // namespace rtcmend
