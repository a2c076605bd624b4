#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace rtcmend {

/// One danger of the work at the bench, and how to stay clear of it.
struct Caution {
  std::string topic;  ///< "Lithium cell"
  std::string text;
};

/// What every plan and bench sheet says before anything else.
const std::vector<Caution>& bench_cautions();
/// The sentence that goes with them: they do not replace the local rules.
std::string_view cautions_limit();

}  // namespace rtcmend
