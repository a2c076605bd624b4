#include "base/error.h"

#include <utility>

namespace rtcmend {

namespace {

// More than any message needs; but a message repeats what a stranger's file says, which may be a
// word of a million letters.
constexpr std::size_t longest_words = 8000;

std::string within_bounds(std::string words) {
  if (words.size() <= longest_words) return words;
  words.resize(longest_words);
  return words + " ...";
}

Advice within_bounds(const Advice& advice) {
  Advice bounded;
  for (const AdviceStep& step : advice.steps()) bounded.add({within_bounds(step.words), step.act});
  return bounded;
}

}  // namespace

Error::Error(Refusal refusal, std::string where, std::string what, Advice advice,
             std::string excerpt)
    : refusal_(refusal),
      where_(within_bounds(std::move(where))),
      message_(within_bounds(std::move(what))),
      advice_(within_bounds(advice)),
      excerpt_(within_bounds(std::move(excerpt))),
      whole_(where_ + ": " + message_) {}

void refuse(std::string where, std::string what, Advice advice, std::string excerpt) {
  throw Error(Refusal::input, std::move(where), std::move(what), std::move(advice),
              std::move(excerpt));
}

void refuse_choice(std::string choice, std::string what, Advice advice) {
  throw Error(Refusal::input, std::move(choice), std::move(what), std::move(advice)).as_choice();
}

}  // namespace rtcmend
