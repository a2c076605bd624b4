#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/advice.h"

namespace rtcmend {

/// One danger of the work at the bench, and how to stay clear of it.
struct Caution {
  std::string topic;  ///< "Lithium cell"
  std::string text;
};

/// What every plan and bench sheet says before anything else. They stand here and nowhere else.
const std::vector<Caution>& bench_cautions();
/// The sentence that goes with them: they do not replace the local rules.
std::string_view cautions_limit();

/// Advice that sends a hand to hardware: the same, with the line in front that says to switch off
/// and unplug, and where the cautions stand. Nothing is said twice, and nothing of no advice.
Advice by_hand(Advice advice);
/// The same for work on a part that lies on the bench, out of any machine.
Advice at_bench(Advice advice);
/// The words of by_hand()'s line, without the way to the cautions.
std::string_view hands_line();
/// Whether advice points to the cautions.
bool points_to_cautions(const Advice& advice);

}  // namespace rtcmend
