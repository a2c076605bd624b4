#include "support/cycles_8088.h"

#include <algorithm>

namespace rtcmend::test {

namespace {

constexpr std::uint32_t unknown = 200;
constexpr std::uint32_t most_bytes = 6;
constexpr std::uint32_t fetch = 4 * most_bytes;
constexpr std::uint32_t address = 12;  // of an operand: displacement, base and index
constexpr std::uint32_t word = 2 * 4;  // read and written
constexpr std::uint32_t jump = 24;     // CALL, RET, LOOP and jumps that are taken, or cheaper

/// Instructions with a mode byte: on a register, and in memory.
std::uint32_t operand(std::uint8_t mode, std::uint32_t with_register, std::uint32_t with_memory) {
  return mode >= 0xC0 ? with_register : with_memory + address + word;
}

/// The groups F6h, F7h: TEST, NOT, NEG, MUL, IMUL, DIV, IDIV.
std::uint32_t group_f6(std::uint8_t mode, bool wide) {
  switch (mode >> 3 & 7) {
    case 4:
      return operand(mode, wide ? 133 : 77, wide ? 139 : 83);
    case 0:
    case 2:
    case 3:
      return operand(mode, 5, 16);
    default:
      return unknown;
  }
}

std::uint32_t repeated(std::uint8_t opcode, std::uint32_t count) {
  const bool moves = opcode == 0xA4 || opcode == 0xA5;
  return 9 + count * (moves ? 25 : 30);
}

std::uint32_t plain(std::uint8_t opcode, std::uint8_t mode, std::uint32_t cl) {
  if (opcode < 0x40 && (opcode & 7) < 4) return operand(mode, 3, 16);
  if (opcode < 0x40 && (opcode & 7) < 6) return 4;
  if (opcode < 0x40) return opcode == 0x27 || opcode == 0x2F ? 4 : 14;  // DAA; segments
  if (opcode < 0x50) return 3;
  if (opcode < 0x60) return 15;
  if (opcode >= 0x70 && opcode <= 0x7F) return jump;
  if (opcode >= 0x80 && opcode <= 0x83) return operand(mode, 4, 17);
  if (opcode >= 0x84 && opcode <= 0x87) return operand(mode, 4, 17);
  if (opcode >= 0x88 && opcode <= 0x8E) return operand(mode, 2, 10);
  if (opcode >= 0x90 && opcode <= 0x99) return 5;
  if (opcode >= 0xA0 && opcode <= 0xA3) return 14;
  if (opcode >= 0xA4 && opcode <= 0xAF) return 30;
  if (opcode >= 0xB0 && opcode <= 0xBF) return 4;
  if (opcode == 0xC2 || opcode == 0xC3) return jump;
  if (opcode == 0xC6 || opcode == 0xC7) return operand(mode, 4, 10);
  if (opcode == 0xCD) return 71;
  if (opcode == 0xD0 || opcode == 0xD1) return operand(mode, 2, 15);
  if (opcode == 0xD2 || opcode == 0xD3) return operand(mode, 8 + 4 * cl, 20 + 4 * cl);
  if (opcode >= 0xE0 && opcode <= 0xE3) return jump;
  if (opcode == 0xE8 || opcode == 0xE9 || opcode == 0xEB) return jump;
  if (opcode == 0xF6 || opcode == 0xF7) return group_f6(mode, opcode & 1);
  if (opcode >= 0xF8 && opcode <= 0xFD) return 2;
  if (opcode == 0xFE || opcode == 0xFF) return operand(mode, 16, 24);
  return unknown;
}

}  // namespace

std::uint32_t most_cycles_8088(const Tiny8086& cpu) {
  const std::uint8_t opcode = cpu.byte(Tiny8086::cs, cpu.ip);
  const std::uint8_t next = cpu.byte(Tiny8086::cs, static_cast<std::uint16_t>(cpu.ip + 1));
  if (opcode == 0xF2 || opcode == 0xF3) return fetch + repeated(next, cpu.registers[Tiny8086::cx]);
  return fetch + plain(opcode, next, cpu.low(Tiny8086::cx));
}

}  // namespace rtcmend::test
