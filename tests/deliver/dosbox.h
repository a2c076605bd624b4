#pragma once

#include <string>
#include <vector>

#include "deliver/workplace.h"

namespace rtcmend::test {

/// Runs commands at the DOS prompt of DOSBox, with the workplace as drive C. Fails the test when
/// DOSBox is missing or does not end. `parts`: further sections of its configuration.
void run_in_dosbox(const Workplace& workplace, const std::vector<std::string>& commands,
                   const std::string& parts = {});

}  // namespace rtcmend::test
