#pragma once

#include <vector>

#include "base/error.h"

namespace rtcmend {

/// What is wrong with the lines of one file, so that it can be told in one go.
class ErrorList {
 public:
  /// Does something with a line; what it refuses is kept.
  template <typename Act>
  void trying(const Act& act) {
    try {
      act();
    } catch (const Error& error) {
      errors_.push_back(error);
    }
  }
  /// Throws the first refusal, the others listed behind it; nothing when there was none.
  void refuse_if_any() const;

 private:
  std::vector<Error> errors_;
};

}  // namespace rtcmend
