#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "board/port.h"
#include "board/talk.h"

namespace rtcmend {

/// A clock that only goes forward.
using Stopwatch = std::function<Moment()>;
/// Opens a port by its name, as Port::open() does.
using PortOpener = std::function<std::unique_ptr<Port>(const std::string& name)>;

/// A board that has said who it is, at an open port.
struct BoardFound {
  std::string name;  ///< the port's
  std::unique_ptr<Port> port;
  std::unique_ptr<BoardSession> session;
};

/// Hands on what goes out and what comes in, waiting for it up to `most`. Throws what the session
/// and the port throw.
void converse_once(BoardFound& board, std::chrono::milliseconds most, const Stopwatch& now);

/// The board at the port of this name. Refuses (Error) within four seconds what is absent, wrong,
/// deaf, taken or of another version.
BoardFound board_at(const std::string& name, const PortOpener& open, const Stopwatch& now);

/// The one board that answers at any of these ports, all of them asked at once. Refuses (Error)
/// within four seconds when none does, saying what stands in the way at each port, and when more
/// than one does.
BoardFound only_board(const std::vector<std::string>& names, const PortOpener& open,
                      const Stopwatch& now);

}  // namespace rtcmend
