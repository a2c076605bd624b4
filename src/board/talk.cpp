#include "board/talk.h"

#include "board/firmware/protocol.h"
#include "board/refusals.h"

namespace rtcmend {

const BoardAnswer& Talk::next(Step step) {
  if (used_ < answers_.size()) return answers_[used_++];
  wanted_ = std::move(step);
  throw Pending{};
}

const BoardAnswer& Talk::ask(const BoardRequest& request) {
  return next({request});
}

const std::vector<std::uint8_t>& Talk::need(const BoardRequest& request) {
  const BoardAnswer& answer = ask(request);
  if (answer.status != BOARD_DONE) refuse_status(answer);
  return answer.data;
}

void Talk::pause(Moment length) {
  next({std::nullopt, length});
}

Moment Talk::now() const {
  return used_ == 0 ? begun_ : answers_[used_ - 1].arrived;
}

void BoardSession::receive(std::string_view bytes, Moment now) {
  link_.receive(bytes, now);
  link_.pass(now);
  if (link_.trouble() != LinkTrouble::none)
    refuse_trouble(link_.trouble(), link_.is_open() ? link_.hello().version : 0);
  if (!link_.is_open() || !work_) return;
  if (!begun_) {
    begun_ = true;
    talk_.begun_ = now;
    proceed(now);
  }
  while (work_ && has_next(now)) proceed(now);
}

/// Takes in what the work waits for, when it is there.
bool BoardSession::has_next(Moment now) {
  if (paused_until_) {
    if (now < *paused_until_) return false;
    paused_until_.reset();
    talk_.answers_.push_back({BOARD_DONE, {}, now});
    return true;
  }
  auto answer = link_.take_answer();
  if (!answer) return false;
  talk_.answers_.push_back(std::move(*answer));
  return true;
}

void BoardSession::proceed(Moment now) {
  talk_.used_ = 0;
  try {
    work_(talk_);
    work_ = nullptr;
  } catch (const Talk::Pending&) {
    const auto& wanted = *talk_.wanted_;
    if (wanted.request)
      link_.ask(*wanted.request, now);
    else
      paused_until_ = now + wanted.pause;
  } catch (...) {
    work_ = nullptr;
    throw;
  }
}

}  // namespace rtcmend
