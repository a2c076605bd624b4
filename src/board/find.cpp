#include "board/find.h"

#include <optional>

#include "base/error.h"
#include "base/text.h"

namespace rtcmend {

namespace {

using namespace std::chrono_literals;

constexpr std::chrono::milliseconds one_turn = 5ms;

BoardFound opened(const std::string& name, const PortOpener& open, const Stopwatch& now) {
  auto port = open(name);
  return {name, std::move(port), std::make_unique<BoardSession>(now())};
}

std::optional<Error> step_of(BoardFound& one, const Stopwatch& now) {
  try {
    converse_once(one, one_turn, now);
  } catch (const Error& error) {
    return error;
  }
  return std::nullopt;
}

/// What became of the ports.
struct Search {
  std::vector<BoardFound> asked, answering;
  std::vector<std::string> others;  ///< why not, each with its port's name
};

Search opened_all(const std::vector<std::string>& names, const PortOpener& open,
                  const Stopwatch& now) {
  Search search;
  for (const std::string& name : names) {
    try {
      search.asked.push_back(opened(name, open, now));
    } catch (const Error& error) {
      search.others.push_back(error.where() + ": " + error.message());
    }
  }
  return search;
}

void ask_each(Search& search, const Stopwatch& now) {
  for (std::size_t i = 0; i < search.asked.size();) {
    BoardFound& one = search.asked[i];
    const auto failed = step_of(one, now);
    const bool answered = !failed && one.session->link().is_open();
    if (failed) search.others.push_back(one.name + ": " + failed->message());
    if (answered) search.answering.push_back(std::move(one));
    if (failed || answered)
      search.asked.erase(search.asked.begin() + static_cast<std::ptrdiff_t>(i));
    else
      ++i;
  }
}

}  // namespace

void converse_once(BoardFound& board, std::chrono::milliseconds most, const Stopwatch& now) {
  board.port->write(board.session->take_output());
  const std::string came = board.port->read(most);
  board.session->receive(came, now());
}

BoardFound board_at(const std::string& name, const PortOpener& open, const Stopwatch& now) {
  BoardFound one = opened(name, open, now);
  while (!one.session->link().is_open()) converse_once(one, one_turn, now);
  return one;
}

BoardFound only_board(const std::vector<std::string>& names, const PortOpener& open,
                      const Stopwatch& now) {
  Search search = opened_all(names, open, now);
  while (!search.asked.empty()) ask_each(search, now);
  if (search.answering.size() == 1) return std::move(search.answering.front());
  const Act naming{Act::Kind::choose, "port", {}};
  const Advice name_it{{"Name one of them", naming}};
  const Advice plug_or_name{{"Plug the board in, or name its port", naming}};
  if (search.answering.size() > 1) {
    std::vector<std::string> answering;
    for (const BoardFound& one : search.answering) answering.push_back(one.name);
    refuse_choice("port", "more than one board answers: " + join(answering, ", "), name_it);
  }
  throw Error(Refusal::file_system, "board",
              search.others.empty() ? "no serial port is there"
                                    : "no board answers. " + join(search.others, "; "),
              search.others.empty() ? Advice("plug the board in") : plug_or_name);
}

}  // namespace rtcmend
