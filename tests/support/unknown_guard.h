#pragma once

#include <vector>

#include "check/check.h"
#include "support/invented_firmware.h"

namespace rtcmend::test {

/// How a firmware that nobody documented guards its bytes, or that it does not.
struct UnknownGuard {
  enum class Kind {
    none,
    searched,    ///< of the kinds that are searched
    hole,        ///< the same, but three bytes of its range do not count
    end_around,  ///< an 8-bit sum whose carry is brought round
    rotated,     ///< an 8-bit sum that is rotated before each byte
    nibbles,     ///< an 8-bit sum of half bytes
    weighted     ///< an 8-bit sum of bytes times their places
  };
  Kind kind = Kind::searched;
  Check check;                ///< place and range, and the rule of the first three kinds
  std::vector<Address> hole;  ///< covered bytes that do not count

  bool is_searched() const { return kind == Kind::searched; }
};

UnknownGuard draw_guard(Dice& dice);

/// Works the check out and stores it.
void protect(const UnknownGuard& guard, std::vector<std::uint8_t>& bytes);

}  // namespace rtcmend::test
