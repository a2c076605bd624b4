#include "cli/board_at_port.h"

#include <algorithm>
#include <chrono>
#include <ctime>

#include "base/error.h"
#include "base/system.h"

namespace rtcmend {

namespace {

using namespace std::chrono_literals;

constexpr std::chrono::milliseconds one_turn = 5ms;

Moment present() {
  return std::chrono::duration_cast<Moment>(std::chrono::steady_clock::now().time_since_epoch());
}

/// The error with the port's name before it.
[[noreturn]] void rethrow_at(const std::string& name, const Error& error) {
  const std::string where = error.where() == "board" ? name : error.where();
  throw Error(error.refusal(), where, error.message(), error.advice(), error.excerpt());
}

}  // namespace

BoardAtPort::BoardAtPort(const std::string& name) {
  try {
    board_ = name.empty() ? only_board(likely_ports(), Port::open, present)
                          : board_at(name, Port::open, present);
  } catch (const Error& error) {
    rethrow_at(name.empty() ? "board" : name, error);
  }
}

BoardAtPort::~BoardAtPort() {
  leave_off();
}

void BoardAtPort::run(const std::string& doing, const std::function<void(Talk&)>& work) {
  touched_ = true;
  board_.session->begin(work);
  try {
    converse(doing, true);
  } catch (const Error& error) {
    leave_off();
    rethrow_at(board_.name, error);
  }
}

void BoardAtPort::converse(const std::string& doing, bool may_stop) {
  const Watch watch = patience_.watch();
  while (!board_.session->is_done()) {
    converse_once(board_, one_turn, present);
    if (!may_stop) continue;
    patience_.part(doing, board_.session->progress());
    if (watch.stopped())
      throw Error(Refusal::file_system, "board", "stopped by Ctrl-C; the chip is switched off",
                  "begin again: the chip is read first");
  }
  board_.port->write(board_.session->take_output());
}

/// A conversation of its own: the one under way may wait for an answer.
void BoardAtPort::leave_off() {
  if (!touched_ || !board_.port) return;
  touched_ = false;
  try {
    board_.session = std::make_unique<BoardSession>(present());
    board_.session->begin([](Talk& talk) { switch_off(talk); });
    converse({}, false);
  } catch (const Error&) {
    // Without an answer the board itself switches off after half a minute.
    return;
  }
}

WallClock wall_clock() {
  const auto now = std::chrono::system_clock::now();
  const Moment moment = present();
  const auto since = std::chrono::duration_cast<std::chrono::microseconds>(now.time_since_epoch());
  const auto whole = std::chrono::duration_cast<std::chrono::seconds>(since);
  const auto local = system::local_time(static_cast<std::time_t>(whole.count()));
  if (!local) refuse("now", "this computer does not know the time", "set its clock first");
  const long long seconds =
      seconds_since_1980({local->tm_year + 1900, local->tm_mon + 1, local->tm_mday, local->tm_hour,
                          local->tm_min, std::min(local->tm_sec, 59)});
  const long long start = seconds * 1'000'000 + (since - whole).count();
  return [=](Moment at) { return start + (at - moment).count(); };
}

}  // namespace rtcmend
