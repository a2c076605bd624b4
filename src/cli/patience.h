#pragma once

#include <atomic>
#include <chrono>
#include <cstddef>
#include <string_view>

#include "discover/question.h"

namespace rtcmend {

/// Stands by a long search: shows progress on a terminal once it has taken half a second, and turns
/// the first Ctrl-C into a request to stop, so that what was found so far is still told. A second
/// Ctrl-C ends the program as usual. One at a time.
class Patience {
 public:
  Patience();
  ~Patience();
  Patience(const Patience&) = delete;
  Patience& operator=(const Patience&) = delete;

  /// For the search; valid as long as this object.
  Watch watch();
  /// Progress where nobody knows how much is to come: how many are done.
  void count(std::size_t done);
  /// How much is done, from 0 to 1, of what is named.
  void part(std::string_view doing, double done);

 private:
  void show(double part);
  void show_text(std::string_view text);
  bool has_waited() const;

  std::chrono::steady_clock::time_point start_;
  bool on_terminal_;
  bool shown_ = false;
  void (*previous_)(int);
};

}  // namespace rtcmend
