#pragma once

#include <string>

#include "base/error.h"

namespace rtcmend {

/// "WHERE: WHAT / try: REMEDY" of the refusal, or "accepted".
template <typename Action>
std::string complaint(Action action) {
  try {
    action();
  } catch (const Error& error) {
    return std::string(error.what()) + " / try: " + error.remedy();
  }
  return "accepted";
}

}  // namespace rtcmend
