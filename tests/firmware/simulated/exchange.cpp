#include "exchange.h"

namespace rtcmend::test {

namespace {

constexpr std::uint64_t step = clocks_per_second / 2000;

Moment moment_of(const SimulatedBoard& board) {
  return Moment{static_cast<long long>(board.now() / (clocks_per_second / 1'000'000))};
}

}  // namespace

Exchange::Exchange(SimulatedBoard& board, const WireFaults& faults)
    : session(moment_of(board)), board_(board), faults_(faults), random_(faults.seed) {}

Moment Exchange::now() const {
  return moment_of(board_);
}

std::string Exchange::spoiled(const std::string& characters) {
  if (faults_.dropped + faults_.changed + faults_.added == 0) return characters;
  std::uniform_real_distribution<double> share;
  std::string arrived;
  for (const char character : characters) {
    if (share(random_) < faults_.added) arrived += static_cast<char>(random_());
    if (share(random_) < faults_.dropped) continue;
    arrived += share(random_) < faults_.changed ? static_cast<char>(random_()) : character;
  }
  return arrived;
}

void Exchange::run(const std::function<void(Talk&)>& work) {
  session.begin(work);
  while (!session.is_done()) {
    board_.run(step);
    std::string in = spoiled(board_.take()), out = spoiled(session.take_output());
    if (meddle) meddle(out, in);
    if (gone) in.clear(), out.clear();
    board_.send(out);
    session.receive(in, now() + Moment{in.empty() ? 0 : delay()});
  }
  board_.send(session.take_output());
}

}  // namespace rtcmend::test
