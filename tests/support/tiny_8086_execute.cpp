#include <utility>

#include "support/tiny_8086.h"

// The instructions; what they rest on is in tiny_8086.cpp.

namespace rtcmend::test {

namespace {

std::uint16_t mask(bool wide) {
  return wide ? 0xFFFF : 0xFF;
}

std::uint16_t extended(std::uint8_t byte) {
  return static_cast<std::uint16_t>(static_cast<std::int8_t>(byte));
}

}  // namespace

Stop Tiny8086::step() {
  segment_override_.reset();
  repeat_.reset();
  for (;;) {
    const std::uint8_t opcode = fetch();
    if ((opcode & 0xE7) == 0x26)
      segment_override_ = static_cast<Segment>(opcode >> 3 & 3);
    else if (opcode == 0xF2 || opcode == 0xF3)
      repeat_ = opcode == 0xF3;
    else
      return execute(opcode);
  }
}

Stop Tiny8086::execute(std::uint8_t opcode) {
  const bool wide = opcode & 1;
  if (simple(opcode) || move(opcode)) return Stop::running;
  if (opcode < 0x40 && (opcode & 7) < 6) {  // the eight operations, in six shapes
    const unsigned operation = opcode >> 3;
    if ((opcode & 7) >= 4) {
      const auto result =
          arithmetic(operation, read(register_place(0), wide), fetch_operand(wide), wide);
      if (operation != 7) write(register_place(0), wide, result);
      return Stop::running;
    }
    const ModRm modrm = fetch_modrm();
    const Place other = register_place(modrm.reg);
    const Place& to = opcode & 2 ? other : modrm.place;
    const Place& from = opcode & 2 ? modrm.place : other;
    const auto result = arithmetic(operation, read(to, wide), read(from, wide), wide);
    if (operation != 7) write(to, wide, result);
    return Stop::running;
  }
  if (opcode >= 0x70 && opcode <= 0x7F) {
    jump_short(condition(opcode & 15U));
    return Stop::running;
  }
  if (opcode >= 0x80 && opcode <= 0x83) {
    const ModRm modrm = fetch_modrm();
    const std::uint16_t value = opcode == 0x83 ? extended(fetch()) : fetch_operand(wide);
    const auto result = arithmetic(modrm.reg, read(modrm.place, wide), value, wide);
    if (modrm.reg != 7) write(modrm.place, wide, result);
    return Stop::running;
  }
  if ((opcode >= 0xA4 && opcode <= 0xA7) || (opcode >= 0xAA && opcode <= 0xAF))
    return string(opcode);
  if (opcode >= 0xD0 && opcode <= 0xD3) {
    const ModRm modrm = fetch_modrm();
    const unsigned count = opcode & 2 ? low(cx) : 1U;
    write(modrm.place, wide, shift(modrm.reg, read(modrm.place, wide), count, wide));
    return Stop::running;
  }
  switch (opcode) {
    case 0xCD:
      return on_interrupt && on_interrupt(fetch()) ? Stop::running : Stop::ended;
    case 0xCC:
      return on_interrupt && on_interrupt(3) ? Stop::running : Stop::ended;
    case 0xEA:
      return jump_far();
    case 0xF4:
      return Stop::halted;
    case 0xF6:
    case 0xF7:
      return group_f6(wide);
    case 0xFE:
    case 0xFF:
      return group_fe(wide);
    default:
      return Stop::not_8086;
  }
}

Stop Tiny8086::jump_far() {
  const std::uint16_t offset = fetch_word();
  segments[cs] = fetch_word();
  jump(offset);
  return segments[cs] == 0xFFFF && offset == 0 ? Stop::restarted : Stop::running;
}

/// Instructions without a ModRM byte. False when it is none of them.
bool Tiny8086::simple(std::uint8_t opcode) {
  const auto r = static_cast<std::size_t>(opcode & 7);
  const bool old_carry = carry;
  if (opcode >= 0x40 && opcode <= 0x47) {
    registers[r] = add(registers[r], 1, false, true);
    carry = old_carry;
    return true;
  }
  if (opcode >= 0x48 && opcode <= 0x4F) {
    registers[r] = subtract(registers[r], 1, false, true);
    carry = old_carry;
    return true;
  }
  if (opcode >= 0x50 && opcode <= 0x57) {
    // The 8086 pushes SP as it stands afterwards, later ones as it was; no program may rely on it.
    push(registers[r]);
    return true;
  }
  if (opcode >= 0x58 && opcode <= 0x5F) {
    registers[r] = pop();
    return true;
  }
  if (opcode >= 0x90 && opcode <= 0x97) {
    std::swap(registers[ax], registers[r]);
    return true;
  }
  switch (opcode) {
    case 0x06:
    case 0x0E:
    case 0x16:
    case 0x1E:
      push(segments[opcode >> 3 & 3]);
      return true;
    case 0x07:
    case 0x17:
    case 0x1F:
      segments[opcode >> 3 & 3] = pop();
      return true;
    case 0x27:
    case 0x2F:
      decimal_adjust(opcode == 0x27);
      return true;
    case 0x98:
      registers[ax] = extended(low(ax));
      return true;
    case 0x99:
      registers[dx] = registers[ax] & 0x8000 ? 0xFFFF : 0;
      return true;
    case 0x9C:
      push(flags());
      return true;
    case 0x9D:
      set_flags(pop());
      return true;
    case 0xA8:
      logic(low(ax) & fetch(), false);
      return true;
    case 0xA9:
      logic(registers[ax] & fetch_word(), true);
      return true;
    case 0xC3:
      jump(pop());
      return true;
    case 0xD4: {
      const std::uint8_t base = fetch();
      if (base == 0) return true;
      registers[ax] = static_cast<std::uint16_t>((low(ax) / base) << 8 | low(ax) % base);
      set_result_flags(low(ax), false);
      return true;
    }
    case 0xD5: {
      const std::uint8_t base = fetch();
      registers[ax] = static_cast<std::uint8_t>(high(ax) * base + low(ax));
      set_result_flags(low(ax), false);
      return true;
    }
    case 0xE0:
    case 0xE1:
    case 0xE2:
      --registers[cx];
      jump_short(registers[cx] != 0 && (opcode == 0xE2 || zero == (opcode == 0xE1)));
      return true;
    case 0xE3:
      jump_short(registers[cx] == 0);
      return true;
    case 0xE4:
      set_low(ax, on_in(fetch()));
      return true;
    case 0xE6:
      on_out(fetch(), low(ax));
      return true;
    case 0xE7: {
      const std::uint8_t port = fetch();
      on_out(port, low(ax));
      on_out(static_cast<std::uint16_t>(port + 1), high(ax));
      return true;
    }
    case 0xE8: {
      const std::uint16_t by = fetch_word();
      push(ip);
      jump(static_cast<std::uint16_t>(ip + by));
      return true;
    }
    case 0xE9: {
      const std::uint16_t by = fetch_word();
      jump(static_cast<std::uint16_t>(ip + by));
      return true;
    }
    case 0xEB:
      jump_short(true);
      return true;
    case 0xEC:
      set_low(ax, on_in(registers[dx]));
      return true;
    case 0xEE:
      on_out(registers[dx], low(ax));
      return true;
    case 0xEF:
      on_out(registers[dx], low(ax));
      on_out(static_cast<std::uint16_t>(registers[dx] + 1), high(ax));
      return true;
    case 0xF5:
      carry = !carry;
      return true;
    case 0xF8:
    case 0xF9:
      carry = opcode & 1;
      return true;
    case 0xFA:
    case 0xFB:
      interrupts = opcode & 1;
      return true;
    case 0xFC:
    case 0xFD:
      direction = opcode & 1;
      return true;
    default:
      return false;
  }
}

/// Instructions that move, test or exchange. False when it is none of them.
bool Tiny8086::move(std::uint8_t opcode) {
  const bool wide = opcode & 1;
  if (opcode >= 0xB0 && opcode <= 0xBF) {
    const bool whole = opcode >= 0xB8;
    write(register_place(opcode & 7U), whole, fetch_operand(whole));
    return true;
  }
  switch (opcode) {
    case 0x84:
    case 0x85: {
      const ModRm modrm = fetch_modrm();
      logic(read(modrm.place, wide) & read(register_place(modrm.reg), wide), wide);
      return true;
    }
    case 0x86:
    case 0x87: {
      const ModRm modrm = fetch_modrm();
      const std::uint16_t old = read(modrm.place, wide);
      write(modrm.place, wide, read(register_place(modrm.reg), wide));
      write(register_place(modrm.reg), wide, old);
      return true;
    }
    case 0x88:
    case 0x89: {
      const ModRm modrm = fetch_modrm();
      write(modrm.place, wide, read(register_place(modrm.reg), wide));
      return true;
    }
    case 0x8A:
    case 0x8B: {
      const ModRm modrm = fetch_modrm();
      write(register_place(modrm.reg), wide, read(modrm.place, wide));
      return true;
    }
    case 0x8C: {
      const ModRm modrm = fetch_modrm();
      write(modrm.place, true, segments[modrm.reg & 3]);
      return true;
    }
    case 0x8D: {
      const ModRm modrm = fetch_modrm();
      registers[modrm.reg] = modrm.place.offset;
      return true;
    }
    case 0x8E: {
      const ModRm modrm = fetch_modrm();
      segments[modrm.reg & 3] = read(modrm.place, true);
      return true;
    }
    case 0xA0:
    case 0xA1:
    case 0xA2:
    case 0xA3: {
      Place place;
      place.segment = segment_override_.value_or(ds);
      place.offset = fetch_word();
      if (opcode & 2)
        write(place, wide, read(register_place(0), wide));
      else
        write(register_place(0), wide, read(place, wide));
      return true;
    }
    case 0xC6:
    case 0xC7: {
      const ModRm modrm = fetch_modrm();
      write(modrm.place, wide, fetch_operand(wide));
      return true;
    }
    default:
      return false;
  }
}

Stop Tiny8086::string(std::uint8_t opcode) {
  if (!repeat_) {
    string_once(opcode);
    return Stop::running;
  }
  const bool wanted = *repeat_;
  while (registers[cx] != 0) {
    --registers[cx];
    if (string_once(opcode) && zero != wanted) break;
  }
  return Stop::running;
}

/// One round of a string instruction. True when it compares.
bool Tiny8086::string_once(std::uint8_t opcode) {
  const bool wide = opcode & 1;
  const Place from{false, 0, segment_override_.value_or(ds), registers[si]};
  const Place to{false, 0, es, registers[di]};
  const int by = (direction ? -1 : 1) * (wide ? 2 : 1);
  const auto advance = [&](Register r) {
    registers[r] = static_cast<std::uint16_t>(registers[r] + by);
  };
  switch (opcode & 0xFE) {
    case 0xA4:
      write(to, wide, read(from, wide));
      break;  // MOVS
    case 0xA6:
      subtract(read(from, wide), read(to, wide), false, wide);
      break;  // CMPS
    case 0xAA:
      write(to, wide, read(register_place(0), wide));
      break;  // STOS
    case 0xAC:
      write(register_place(0), wide, read(from, wide));
      break;  // LODS
    default:
      subtract(read(register_place(0), wide), read(to, wide), false, wide);  // SCAS
  }
  const bool uses_si = opcode < 0xA8 || (opcode & 0xFE) == 0xAC;
  const bool uses_di = (opcode & 0xFE) != 0xAC;
  if (uses_si) advance(si);
  if (uses_di) advance(di);
  return (opcode & 0xFE) == 0xA6 || (opcode & 0xFE) == 0xAE;
}

/// TEST, NOT, NEG, MUL, DIV; the signed ones are left out.
Stop Tiny8086::group_f6(bool wide) {
  const ModRm modrm = fetch_modrm();
  const std::uint16_t value = read(modrm.place, wide);
  switch (modrm.reg) {
    case 0:
      logic(value & fetch_operand(wide), wide);
      return Stop::running;
    case 2:
      write(modrm.place, wide, static_cast<std::uint16_t>(~value));
      return Stop::running;
    case 3:
      write(modrm.place, wide, subtract(0, value, false, wide));
      return Stop::running;
    case 4: {
      const std::uint32_t product =
          static_cast<std::uint32_t>(read(register_place(0), wide)) * value;
      registers[ax] = static_cast<std::uint16_t>(product);
      if (wide) registers[dx] = static_cast<std::uint16_t>(product >> 16);
      carry = overflow = (product >> (wide ? 16 : 8)) != 0;
      return Stop::running;
    }
    case 6: {
      const std::uint32_t number =
          wide ? static_cast<std::uint32_t>(registers[dx]) << 16 | registers[ax] : registers[ax];
      if (value == 0 || number / value > mask(wide)) return Stop::division;
      const auto quotient = static_cast<std::uint16_t>(number / value);
      const auto rest = static_cast<std::uint16_t>(number % value);
      registers[ax] = wide ? quotient : static_cast<std::uint16_t>(rest << 8 | quotient);
      if (wide) registers[dx] = rest;
      return Stop::running;
    }
    default:
      return Stop::not_8086;
  }
}

/// INC, DEC, and for words CALL, JMP, PUSH.
Stop Tiny8086::group_fe(bool wide) {
  const ModRm modrm = fetch_modrm();
  const std::uint16_t value = read(modrm.place, wide);
  const bool old_carry = carry;
  if (modrm.reg <= 1) {
    write(modrm.place, wide,
          modrm.reg == 0 ? add(value, 1, false, wide) : subtract(value, 1, false, wide));
    carry = old_carry;
    return Stop::running;
  }
  if (!wide) return Stop::not_8086;
  switch (modrm.reg) {
    case 2:
      push(ip);
      jump(value);
      return Stop::running;
    case 4:
      jump(value);
      return Stop::running;
    case 6:
      push(value);
      return Stop::running;
    default:
      return Stop::not_8086;
  }
}

}  // namespace rtcmend::test
