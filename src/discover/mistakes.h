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
/// one out at a time: without it the others must agree about what they disagreed on before. Of two
/// dumps that disagree, the wrong one is that without which the settings differ more clearly; where
/// neither is, none is named. At most a quarter of the session.
std::vector<Mistake> find_mistakes(const std::vector<Step>& steps);

/// The session without them.
std::vector<Step> without(const std::vector<Step>& steps, const std::vector<Mistake>& mistakes);

}  // namespace rtcmend
