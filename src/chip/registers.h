#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "base/image.h"

namespace rtcmend {

/// Addresses of the clock and control bytes (MC146818A).
namespace reg {
inline constexpr Address seconds = 0x00, seconds_alarm = 0x01, minutes = 0x02, minutes_alarm = 0x03,
                         hours = 0x04, hours_alarm = 0x05, weekday = 0x06, day = 0x07, month = 0x08,
                         year = 0x09, a = 0x0A, b = 0x0B, c = 0x0C, d = 0x0D;
}  // namespace reg

/// What the divider bits (6-4 of register A) make of a chip with a 32.768 kHz crystal: only 010
/// keeps time, 11x holds the countdown in reset, everything else is off (DS12885).
enum class Oscillator { counting, held, off };

/// Register A, 0Ah.
struct RegisterA {
  bool updating = false;     ///< UIP: an update was under way
  std::uint8_t divider = 0;  ///< DV2-DV0
  std::uint8_t rate = 0;     ///< RS3-RS0
  Oscillator oscillator = Oscillator::off;
};

/// Register B, 0Bh.
struct RegisterB {
  bool set = false;              ///< SET: updates frozen, the clock looks stopped
  bool periodic = false;         ///< PIE
  bool alarm = false;            ///< AIE
  bool update_ended = false;     ///< UIE
  bool square_wave = false;      ///< SQWE
  bool binary = false;           ///< DM: 1 = binary, 0 = BCD
  bool hours_24 = false;         ///< 24/12: 1 = 24-hour mode
  bool daylight_saving = false;  ///< DSE: the United States rule that ended with 2006
};

/// Register C, 0Ch: read only, cleared by reading.
struct RegisterC {
  bool request = false;       ///< IRQF
  bool periodic = false;      ///< PF
  bool alarm = false;         ///< AF
  bool update_ended = false;  ///< UF
  std::uint8_t reserved = 0;  ///< bits 3-0, which the chip reads as 0
};

/// Register D, 0Dh: read only.
struct RegisterD {
  bool valid = false;         ///< VRT: RAM and time can be trusted
  std::uint8_t reserved = 0;  ///< bits 6-0, which the chip reads as 0
};

RegisterA decode_a(std::uint8_t byte);
RegisterB decode_b(std::uint8_t byte);
RegisterC decode_c(std::uint8_t byte);
RegisterD decode_d(std::uint8_t byte);

/// One named bit or bit group of a register, for display.
struct NamedBits {
  Address at;
  unsigned high, low;      ///< bit numbers
  std::string_view name;   ///< the data sheet's short name: "UIP"
  std::string_view label;  ///< plain words
};
/// Every bit of 0Ah to 0Dh, in order.
const std::vector<NamedBits>& register_bits();

/// Periodic interrupt for RS = 0 to 15: "976.5625 us", "none" (DS12885, 32.768 kHz). Bits above
/// the four of RS do not count.
std::string_view periodic_interrupt(unsigned rate);
/// Square wave for RS = 0 to 15: "1.024 kHz", "none" (DS12885, 32.768 kHz).
std::string_view square_wave(unsigned rate);

/// Bits of a byte that a write can change: none of 0Ch and 0Dh, not UIP, not the top bit of the
/// seconds (DS12885). FFh for RAM.
std::uint8_t writable_bits(Address at);

/// What a healthy chip with its clock running is given by PC firmware: 0Ah = 26h, 0Bh = 02h; and
/// reads back: 0Ch = 00h, 0Dh = 80h.
inline constexpr std::uint8_t usual_a = 0x26, usual_b = 0x02, healthy_c = 0x00, healthy_d = 0x80;

}  // namespace rtcmend
