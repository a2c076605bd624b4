#pragma once

#include <functional>
#include <random>
#include <string>

#include "board.h"
#include "board/talk.h"

namespace rtcmend::test {

/// What the wire between program and board does to the characters on it.
struct WireFaults {
  double dropped = 0, changed = 0, added = 0;  ///< shares of all characters
  unsigned seed = 1;
};

/// The program's side of the protocol and the simulated board, in lock-step; the program's time is
/// the board's.
class Exchange {
 public:
  explicit Exchange(SimulatedBoard& board, const WireFaults& faults = {});

  /// Does a piece of work to its end; throws what it throws.
  void run(const std::function<void(Talk&)>& work);
  /// Called before each step of half a millisecond, with the characters on their way, for a test to
  /// meddle with.
  std::function<void(std::string& to_board, std::string& from_board)> meddle;
  /// Microseconds by which what comes is seen later.
  std::function<long long()> delay = [] { return 0LL; };

  Moment now() const;
  BoardSession session;
  bool gone = false;  ///< the port takes nothing and gives nothing

 private:
  std::string spoiled(const std::string& characters);

  SimulatedBoard& board_;
  WireFaults faults_;
  std::mt19937 random_;
};

}  // namespace rtcmend::test
