#include "base/error.h"

#include <utility>

namespace rtcmend {

Error::Error(Refusal refusal, std::string where, std::string what, std::string remedy)
    : refusal_(refusal),
      where_(std::move(where)),
      message_(std::move(what)),
      remedy_(std::move(remedy)),
      whole_(where_ + ": " + message_) {}

void refuse(std::string where, std::string what, std::string remedy) {
  throw Error(Refusal::input, std::move(where), std::move(what), std::move(remedy));
}

}  // namespace rtcmend
