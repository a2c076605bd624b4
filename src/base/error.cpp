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

}  // namespace

Error::Error(Refusal refusal, std::string where, std::string what, std::string remedy,
             std::string excerpt)
    : refusal_(refusal),
      where_(within_bounds(std::move(where))),
      message_(within_bounds(std::move(what))),
      remedy_(within_bounds(std::move(remedy))),
      excerpt_(within_bounds(std::move(excerpt))),
      whole_(where_ + ": " + message_) {}

void refuse(std::string where, std::string what, std::string remedy, std::string excerpt) {
  throw Error(Refusal::input, std::move(where), std::move(what), std::move(remedy),
              std::move(excerpt));
}

}  // namespace rtcmend
