#pragma once

#include <string>
#include <vector>

#include "discover/session.h"

namespace rtcmend {

/// A dump that does not belong where its label puts it.
struct Mistake {
  std::size_t step = 0;
  std::string text;  ///< in plain words, the dump named
};

/// Finds dumps that are blank, damaged, not saved, exchanged or carry another's label, by leaving
/// out one dump of each value in dispute: without them the others agree. Of dumps that disagree,
/// the wrong ones are those without which the settings differ more clearly; where that does not
/// tell, none is named. At most a quarter of the session.
std::vector<Mistake> find_mistakes(const std::vector<Step>& steps);

/// The session without them.
std::vector<Step> without(const std::vector<Step>& steps, const std::vector<Mistake>& mistakes);

}  // namespace rtcmend
