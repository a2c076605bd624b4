#include "forms/error_list.h"

#include <algorithm>
#include <fmt/format.h>

namespace rtcmend {

void ErrorList::refuse_if_any() const {
  if (errors_.empty()) return;
  const Error& first = errors_.front();
  if (errors_.size() == 1) throw Error(first);
  constexpr std::size_t most = 40;
  std::string list = fmt::format("\n  {} slips in all:", errors_.size());
  for (std::size_t i = 0; i < std::min(most, errors_.size()); ++i) {
    list += fmt::format("\n  {}", errors_[i].what());
    if (const std::string remedy = errors_[i].remedy(); !remedy.empty()) list += "; " + remedy;
  }
  if (errors_.size() > most) list += "\n  and more";
  throw Error(first.refusal(), first.where(), first.message(), first.advice(),
              first.excerpt() + list);
}

}  // namespace rtcmend
