#pragma once

#include <span>
#include <string>
#include <string_view>

namespace rtcmend {

/// Where somebody stands who opens the program for the first time.
struct Situation {
  std::string_view words;    ///< "I have a dump"
  std::string_view command;  ///< what to type then
  std::string_view then;     ///< what that gives
};

std::span<const Situation> situations();
/// What `rtcmend` alone prints: a short guide by situation, on one screen.
std::string guide();
/// What `rtcmend help` prints: every command by its situation, and all of them in a list.
std::string overview();

}  // namespace rtcmend
