#pragma once

#include <compare>
#include <map>
#include <string>
#include <vector>

#include "discover/session.h"

namespace rtcmend {

/// The visits in which each byte disagrees with itself.
struct Disputes {
  std::vector<bool> steady;  ///< by address: it does not move by itself
  std::vector<bool> fair;    ///< by address: steady, and what differs there is held against a dump
  std::map<std::size_t, Addresses> by_visit;  ///< fair bytes only
};

Disputes disputes_in(const std::vector<Step>& steps, const std::vector<Visit>& visits);

/// How well a session hangs together: less is better, in this order.
struct Discord {
  std::size_t disputes = 0;
  std::size_t alike = 0;   ///< values that look like another one, of that setting or of another
  std::size_t shared = 0;  ///< bits that move with more than one setting
  std::size_t moved = 0;   ///< bits that move with settings at all

  friend auto operator<=>(const Discord&, const Discord&) = default;
};

/// `whole`: of the session with all its dumps. Its bytes are those that every dump is judged by,
/// whoever is left out.
Discord discord_of(const std::vector<Step>& steps, const Disputes& whole);

/// The steady bytes of an image, one character each.
std::string steady_bytes(const Image& image, const std::vector<bool>& steady);

}  // namespace rtcmend
