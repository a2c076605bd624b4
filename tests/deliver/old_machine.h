#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "base/image.h"
#include "deliver/text_screen.h"
#include "support/invented_firmware.h"
#include "support/tiny_8086.h"

namespace rtcmend::test {

/// A clock chip behind ports 70h and 71h, with the faults that a test wants.
struct ChipModel {
  std::array<std::uint8_t, 128> bytes{};
  bool present = true;       ///< false: the bus floats, every read gives FFh
  bool writable = true;      ///< false: writes are lost
  bool half = false;         ///< 64 bytes only, which repeat at 40h
  bool counts = true;        ///< false: a dead crystal
  bool one_century = false;  ///< 32h and 37h are one byte, as on some emulators and chipsets
  std::uint8_t selected = 0;
  bool nmi_masked = false;
  std::vector<std::pair<Address, std::uint8_t>> writes;  ///< in order, as they came in
  std::function<void(const ChipModel&)> on_first_write;  ///< with the chip as it was before

  std::uint8_t read() const;
  void write(std::uint8_t value);
  /// One second passes: only the seconds byte moves.
  void second();
  Image image(std::size_t size) const;

 private:
  std::size_t place() const {
    if (one_century && selected == 0x37) return 0x32;
    return selected & (half ? 0x3F : 0x7F);
  }
};

/// The transmitting half of a serial port of the 8250 family, at 3F8h.
struct SerialPort {
  static constexpr std::uint16_t base = 0x3F8;
  bool present = false;
  std::string sent;  ///< as a receiver at 9600 8N1 gets it; "?" for what goes out in another way

  std::uint8_t read(std::uint16_t port) const;
  void write(std::uint16_t port, std::uint8_t value);

 private:
  std::array<std::uint8_t, 8> registers_{};
  std::uint8_t divisor_low_ = 0, divisor_high_ = 0;
};

/// A machine with a clock chip, DOS or firmware for text and keys, and nothing else.
struct OldMachine {
  OldMachine();

  Tiny8086 cpu;
  ChipModel chip;
  SerialPort serial;             ///< the first one
  std::string tail;              ///< what was typed behind the program's name, its blank included
  std::string keys;              ///< what the person types; when it runs out, Enter for ever
  std::string early_keys;        ///< pressed before the program listens: they wait in the buffer
  std::string errors;            ///< what went to the handle for errors, which > does not redirect
  std::string screen;            ///< what was shown
  TextScreen glass;              ///< what stands on the screen, of what went through the firmware
  std::function<void()> on_key;  ///< called whenever the program waits for a key
  int exit_code = -1;            ///< of the program, once it has ended
  bool guarded = true;  ///< no access to the chip's data came with interrupts on or NMI unmasked
  std::size_t other_writes = 0;  ///< to other ports

  /// Fills what nobody promises with rubbish: every register but the stack's, and the program's
  /// segment outside 100h to 100h + `kept` and the word on the stack.
  void scramble_memory(Dice& dice, std::size_t kept);
  /// That, and the RAM of the chip.
  void scramble(Dice& dice, std::size_t kept = 0);

  /// Runs a .COM program to its end, with rubbish in memory and registers.
  Stop run_com(std::string_view program, std::size_t most_instructions = 40'000'000);
  /// Runs a program as the boot sector starts it: CS and the stack are set, and nothing else.
  Stop run_booted(std::string_view program, std::size_t most_instructions = 40'000'000);

 private:
  void load(std::string_view program);
  std::uint8_t next_key();
  bool interrupt(std::uint8_t number);
  bool dos();
  bool firmware(std::uint8_t number);
  bool key_waits() const { return !keys.empty() || !early_keys.empty(); }
  std::size_t beats_ = 0;
  std::uint32_t runs_ = 0;
};

}  // namespace rtcmend::test
