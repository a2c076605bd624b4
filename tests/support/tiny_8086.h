#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace rtcmend::test {

/// Why the processor stopped.
enum class Stop {
  running,
  ended,           ///< an interrupt handler said so
  halted,          ///< HLT
  restarted,       ///< a far jump to FFFFh:0, the reset entry
  not_8086,        ///< an opcode that the 8086 does not have, or that is left out here
  division,        ///< division overflow
  out_of_patience  ///< too many instructions
};

/// An 8086 with 1 MiB of memory and nothing around it: ports and interrupts are the test's
/// business. It fetches as far ahead as the longest instruction queue of the family, so that a
/// program that changes code just in front of itself fails here as it would on a real machine.
class Tiny8086 {
 public:
  Tiny8086();

  enum Register { ax, cx, dx, bx, sp, bp, si, di };
  enum Segment { es, cs, ss, ds };

  std::array<std::uint16_t, 8> registers{};
  std::array<std::uint16_t, 4> segments{};
  std::uint16_t ip = 0;
  bool carry = false, parity = false, adjust = false, zero = false, sign = false, overflow = false,
       direction = false, interrupts = false;
  std::vector<std::uint8_t> memory;

  std::function<std::uint8_t(std::uint16_t port)> on_in;
  std::function<void(std::uint16_t port, std::uint8_t value)> on_out;
  /// Returns false when the program has ended.
  std::function<bool(std::uint8_t number)> on_interrupt;
  /// Called before every instruction, with IP at it; may be empty.
  std::function<void()> on_step;
  /// Called after every `beat` instructions.
  std::function<void()> on_beat;
  std::size_t beat = 20000;

  /// Sets up a .COM program as DOS does: all segments alike, the code at 100h, a word of zeros on
  /// the stack, other registers holding rubbish.
  void load_com(std::span<const std::uint8_t> program);
  Stop run(std::size_t most_instructions);

  std::uint8_t low(Register r) const { return static_cast<std::uint8_t>(registers[r]); }
  std::uint8_t high(Register r) const { return static_cast<std::uint8_t>(registers[r] >> 8); }
  void set_low(Register r, std::uint8_t value);
  std::uint8_t byte(Segment segment, std::uint16_t offset) const;
  void set_byte(Segment segment, std::uint16_t offset, std::uint8_t value);
  std::uint16_t word(Segment segment, std::uint16_t offset) const;
  void set_word(Segment segment, std::uint16_t offset, std::uint16_t value);
  void push(std::uint16_t value);
  std::uint16_t pop();
  void jump(std::uint16_t to);

 private:
  /// Where an operand stands: a register, or memory.
  struct Place {
    bool is_register = false;
    unsigned number = 0;
    Segment segment = ds;
    std::uint16_t offset = 0;
  };
  struct ModRm {
    unsigned reg = 0;
    Place place;
  };

  std::uint8_t fetch();
  std::uint16_t fetch_word();
  std::uint16_t fetch_operand(bool wide);
  ModRm fetch_modrm();

  void jump_short(bool taken);

  std::uint16_t read(const Place& place, bool wide);
  void write(const Place& place, bool wide, std::uint16_t value);
  Place register_place(unsigned number) const;

  void set_result_flags(std::uint16_t value, bool wide);
  std::uint16_t add(std::uint16_t a, std::uint16_t b, bool with_carry, bool wide);
  std::uint16_t subtract(std::uint16_t a, std::uint16_t b, bool with_borrow, bool wide);
  std::uint16_t logic(std::uint16_t value, bool wide);
  std::uint16_t arithmetic(unsigned operation, std::uint16_t a, std::uint16_t b, bool wide);
  std::uint16_t shift(unsigned operation, std::uint16_t value, unsigned count, bool wide);
  bool condition(unsigned code) const;
  std::uint16_t flags() const;
  void set_flags(std::uint16_t value);

  Stop step();
  Stop execute(std::uint8_t opcode);
  Stop jump_far();
  bool simple(std::uint8_t opcode);
  bool move(std::uint8_t opcode);
  Stop string(std::uint8_t opcode);
  bool string_once(std::uint8_t opcode);
  Stop group_f6(bool wide);
  Stop group_fe(bool wide);
  void decimal_adjust(bool adding);

  std::size_t linear(Segment segment, std::uint16_t offset) const;

  /// A byte that was changed after it had been fetched, and what was fetched.
  struct Stale {
    std::size_t at = 0;
    std::uint8_t fetched = 0;
  };
  std::vector<Stale> stale_;
  std::optional<Segment> segment_override_;
  std::optional<bool> repeat_;  ///< REP, REPE = true, REPNE = false
};

}  // namespace rtcmend::test
