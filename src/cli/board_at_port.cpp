#include "cli/board_at_port.h"

#include <algorithm>
#include <chrono>
#include <ctime>
#include <fmt/format.h>
#include <optional>
#include <vector>

#include "base/error.h"
#include "base/system.h"
#include "base/text.h"

namespace rtcmend {

namespace {

using namespace std::chrono_literals;

constexpr std::chrono::milliseconds one_turn = 5ms;

Moment present() {
  return std::chrono::duration_cast<Moment>(std::chrono::steady_clock::now().time_since_epoch());
}

/// A port that may have a board.
struct Candidate {
  std::string name;
  std::unique_ptr<Port> port;
  std::unique_ptr<BoardSession> session;
};

void converse_once(Port& port, BoardSession& session, std::chrono::milliseconds most) {
  port.write(session.take_output());
  const std::string came = port.read(most);
  session.receive(came, present());
}

/// The error with the port's name before it.
[[noreturn]] void rethrow_at(const std::string& name, const Error& error) {
  const std::string where = error.where() == "board" ? name : error.where();
  throw Error(error.refusal(), where, error.message(), error.advice(), error.excerpt());
}

/// Greets a port until the board there has said who it is.
Candidate greet(const std::string& name) {
  Candidate one{name, Port::open(name), std::make_unique<BoardSession>(present())};
  while (!one.session->link().is_open()) converse_once(*one.port, *one.session, one_turn);
  return one;
}

std::optional<Error> step_of(Candidate& candidate) {
  try {
    converse_once(*candidate.port, *candidate.session, one_turn);
  } catch (const Error& error) {
    return error;
  }
  return std::nullopt;
}

/// All ports at once: each is waited for no longer than one would be.
Candidate find_board() {
  std::vector<Candidate> open, answering;
  std::vector<std::string> others;
  for (const std::string& name : likely_ports()) {
    try {
      open.push_back({name, Port::open(name), std::make_unique<BoardSession>(present())});
    } catch (const Error& error) {
      others.push_back(error.where() + ": " + error.message());
    }
  }
  while (!open.empty()) {
    for (std::size_t i = 0; i < open.size();) {
      const auto failed = step_of(open[i]);
      const bool answered = !failed && open[i].session->link().is_open();
      if (failed) others.push_back(open[i].name + ": " + failed->message());
      if (answered) answering.push_back(std::move(open[i]));
      if (failed || answered)
        open.erase(open.begin() + static_cast<std::ptrdiff_t>(i));
      else
        ++i;
    }
  }
  if (answering.size() == 1) return std::move(answering.front());
  if (answering.size() > 1) {
    std::vector<std::string> names;
    for (const Candidate& one : answering) names.push_back(one.name);
    refuse("--port", "more than one board answers: " + join(names, ", "), "name one of them");
  }
  throw Error(
      Refusal::file_system, "board",
      others.empty() ? "no serial port is there" : "no board answers. " + join(others, "; "),
      "plug the board in, or name its port with --port");
}

}  // namespace

BoardAtPort::BoardAtPort(const std::string& name) {
  Candidate found;
  try {
    found = name.empty() ? find_board() : greet(name);
  } catch (const Error& error) {
    rethrow_at(name.empty() ? "board" : name, error);
  }
  name_ = found.name;
  port_ = std::move(found.port);
  session_ = std::move(found.session);
}

BoardAtPort::~BoardAtPort() {
  leave_off();
}

void BoardAtPort::run(const std::string& doing, const std::function<void(Talk&)>& work) {
  touched_ = true;
  session_->begin(work);
  try {
    converse(doing, true);
  } catch (const Error& error) {
    leave_off();
    rethrow_at(name_, error);
  }
}

void BoardAtPort::converse(const std::string& doing, bool may_stop) {
  const Watch watch = patience_.watch();
  while (!session_->is_done()) {
    converse_once(*port_, *session_, one_turn);
    if (!may_stop) continue;
    patience_.part(doing, session_->progress());
    if (watch.stopped())
      throw Error(Refusal::file_system, "board", "stopped by Ctrl-C; the chip is switched off",
                  "begin again: the chip is read first");
  }
  port_->write(session_->take_output());
}

/// A conversation of its own: the one under way may wait for an answer.
void BoardAtPort::leave_off() {
  if (!touched_ || !port_) return;
  touched_ = false;
  try {
    session_ = std::make_unique<BoardSession>(present());
    session_->begin([](Talk& talk) { switch_off(talk); });
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
