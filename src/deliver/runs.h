#pragma once

#include <cstdint>
#include <initializer_list>
#include <optional>
#include <span>
#include <vector>

#include "deliver/plan.h"

namespace rtcmend {

/// Consecutive bytes of the chip that are written one after the other.
struct Run {
  Address first = 0;
  std::vector<std::uint8_t> bytes;
};

/// The run that a balance byte covers whole, for programs that find the spoiled value themselves.
struct Balanced {
  std::size_t run = 0;       ///< of Runs::ram
  std::uint8_t balance = 0;  ///< what the balance byte is at the end
};

/// Everything a plan writes, in the safe order, for programs too small to judge the running clock:
/// with the policy `image` they write the time (SET in register B first, register A last), else
/// register A alone: in a new part the oscillator is off, and DATE and TIME do not start it. The
/// century byte is one of the RAM bytes to them.
struct Runs {
  std::vector<Run> spoil;  ///< a check byte that is set wrong first; empty without a check
  std::vector<Run> clock;  ///< with register A, and the RAM bytes that are unsteady: not compared
  std::vector<Run> ram;
  std::optional<Balanced> balanced;
  std::vector<Run> last;  ///< register B as wanted, after a clock
};

/// Refuses (Error) the policy `ask`: they cannot.
Runs runs_of(const Parcel& parcel, const WritePlan& plan);

/// Several lists as one.
std::vector<Run> joined(std::initializer_list<std::vector<Run>> lists);

/// How the debugger script's program reads them: address with bit 7 set (port 70h: NMI off), count,
/// bytes.
void append_runs(std::vector<std::uint8_t>& bytes, const std::vector<Run>& runs);

/// CRC-16/IBM-3740 over everything typed, which gives the two bytes of OUT 71h, AL.
inline constexpr std::uint16_t writing_crc = 0x71E6;

/// Two bytes that bring the CRC over everything typed to `writing_crc`.
std::vector<std::uint8_t> closing_bytes(std::span<const std::uint8_t> typed);

}  // namespace rtcmend
