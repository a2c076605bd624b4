#pragma once

#include <functional>
#include <string>

#include "board/find.h"
#include "board/work.h"
#include "cli/patience.h"

namespace rtcmend {

/// A board on a port of this computer, for one command: opened once, and left with the chip off,
/// whatever ends the command.
class BoardAtPort {
 public:
  /// An empty name looks for the one port at which a board answers. Refuses (Error) within four
  /// seconds what is absent, wrong, deaf, taken or of another version.
  explicit BoardAtPort(const std::string& name);
  ~BoardAtPort();
  BoardAtPort(const BoardAtPort&) = delete;
  BoardAtPort& operator=(const BoardAtPort&) = delete;

  /// Does a piece of work, showing how far it is. Ctrl-C and every refusal leave the chip off;
  /// Throws Error.
  void run(const std::string& doing, const std::function<void(Talk&)>& work);
  const std::string& name() const { return board_.name; }

 private:
  void converse(const std::string& doing, bool may_stop);
  void leave_off();

  Patience patience_;
  BoardFound board_;
  bool touched_ = false;  ///< the chip may have its supply
};

/// This computer's clock, for the board's work.
WallClock wall_clock();

}  // namespace rtcmend
