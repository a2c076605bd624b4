#include "support/tiny_8086.h"

#include <algorithm>
#include <bit>

namespace rtcmend::test {

namespace {

constexpr std::size_t memory_size = 0x100000;
constexpr std::size_t queue_size = 32;  // of a 486, the longest that does not notice changed code
constexpr std::uint16_t program_segment = 0x1000;

std::uint16_t top_bit(bool wide) {
  return wide ? 0x8000 : 0x80;
}
std::uint16_t mask(bool wide) {
  return wide ? 0xFFFF : 0xFF;
}
std::uint16_t extended(std::uint8_t byte) {
  return static_cast<std::uint16_t>(static_cast<std::int8_t>(byte));
}

}  // namespace

Tiny8086::Tiny8086() : memory(memory_size) {}

void Tiny8086::load_com(std::span<const std::uint8_t> program) {
  segments.fill(program_segment);
  registers = {0xFFFF, 0x00FF, 0x1357, 0x2468, 0xFFFE, 0x9ABC, 0x0BAD, 0x7E57};
  std::fill_n(memory.begin() + program_segment * 16, 0x10000, std::uint8_t{0});
  memory[program_segment * 16] = 0xCD;  // INT 20h, where RET leads to
  memory[program_segment * 16 + 1] = 0x20;
  std::copy(program.begin(), program.end(), memory.begin() + program_segment * 16 + 0x100);
  carry = parity = adjust = zero = sign = overflow = direction = false;
  interrupts = true;
  jump(0x100);
}

Stop Tiny8086::run(std::size_t most_instructions) {
  for (std::size_t count = 1; count <= most_instructions; ++count) {
    if (on_step) on_step();
    const Stop stop = step();
    if (stop != Stop::running) return stop;
    if (on_beat && count % beat == 0) on_beat();
  }
  return Stop::out_of_patience;
}

// --- Memory, registers, fetching ---

std::size_t Tiny8086::linear(Segment segment, std::uint16_t offset) const {
  return (segments[segment] * 16U + offset) % memory_size;
}

std::uint8_t Tiny8086::byte(Segment segment, std::uint16_t offset) const {
  return memory[linear(segment, offset)];
}

void Tiny8086::set_byte(Segment segment, std::uint16_t offset, std::uint8_t value) {
  const std::size_t at = linear(segment, offset);
  const bool fetched = at - linear(cs, ip) < queue_size;  // unsigned: false for what lies behind
  if (fetched && memory[at] != value) stale_.push_back({at, memory[at]});
  memory[at] = value;
}

std::uint16_t Tiny8086::word(Segment segment, std::uint16_t offset) const {
  return static_cast<std::uint16_t>(byte(segment, offset) |
                                    byte(segment, static_cast<std::uint16_t>(offset + 1)) << 8);
}

void Tiny8086::set_word(Segment segment, std::uint16_t offset, std::uint16_t value) {
  set_byte(segment, offset, static_cast<std::uint8_t>(value));
  set_byte(segment, static_cast<std::uint16_t>(offset + 1), static_cast<std::uint8_t>(value >> 8));
}

void Tiny8086::set_low(Register r, std::uint8_t value) {
  registers[r] = static_cast<std::uint16_t>((registers[r] & 0xFF00) | value);
}

void Tiny8086::push(std::uint16_t value) {
  registers[sp] = static_cast<std::uint16_t>(registers[sp] - 2);
  set_word(ss, registers[sp], value);
}

std::uint16_t Tiny8086::pop() {
  const std::uint16_t value = word(ss, registers[sp]);
  registers[sp] = static_cast<std::uint16_t>(registers[sp] + 2);
  return value;
}

std::uint8_t Tiny8086::fetch() {
  const std::size_t at = linear(cs, ip++);
  for (const Stale& stale : stale_)  // the oldest entry of a byte is what was fetched
    if (stale.at == at) return stale.fetched;
  return memory[at];
}

std::uint16_t Tiny8086::fetch_word() {
  const std::uint8_t first = fetch();
  return static_cast<std::uint16_t>(first | fetch() << 8);
}

std::uint16_t Tiny8086::fetch_operand(bool wide) {
  return wide ? fetch_word() : fetch();
}

void Tiny8086::jump(std::uint16_t to) {
  ip = to;
  stale_.clear();
}

void Tiny8086::jump_short(bool taken) {
  const std::uint16_t by = extended(fetch());
  if (taken) jump(static_cast<std::uint16_t>(ip + by));
}

Tiny8086::ModRm Tiny8086::fetch_modrm() {
  const std::uint8_t modrm = fetch();
  const unsigned mode = modrm >> 6, rm = modrm & 7;
  ModRm result{modrm >> 3U & 7U, {}};
  if (mode == 3) {
    result.place = register_place(rm);
    return result;
  }
  static constexpr int none = -1;
  static constexpr int bases[8] = {bx, bx, bp, bp, none, none, bp, bx};
  static constexpr int indexes[8] = {si, di, si, di, si, di, none, none};
  const bool direct = mode == 0 && rm == 6;
  unsigned offset = 0;
  if (!direct && bases[rm] != none) offset += registers[static_cast<std::size_t>(bases[rm])];
  if (!direct && indexes[rm] != none) offset += registers[static_cast<std::size_t>(indexes[rm])];
  if (mode == 1) offset += extended(fetch());
  if (mode == 2 || direct) offset += fetch_word();
  const bool on_stack = !direct && bases[rm] == bp;
  result.place.segment = segment_override_.value_or(on_stack ? ss : ds);
  result.place.offset = static_cast<std::uint16_t>(offset);
  return result;
}

Tiny8086::Place Tiny8086::register_place(unsigned number) const {
  Place place;
  place.is_register = true;
  place.number = number;
  return place;
}

std::uint16_t Tiny8086::read(const Place& place, bool wide) {
  if (!place.is_register)
    return wide ? word(place.segment, place.offset) : byte(place.segment, place.offset);
  if (wide) return registers[place.number];
  const std::uint16_t whole = registers[place.number & 3];
  return place.number < 4 ? whole & 0xFF : static_cast<std::uint16_t>(whole >> 8);
}

void Tiny8086::write(const Place& place, bool wide, std::uint16_t value) {
  if (!place.is_register) {
    if (wide) return set_word(place.segment, place.offset, value);
    set_byte(place.segment, place.offset, static_cast<std::uint8_t>(value));
    return;
  }
  if (wide) {
    registers[place.number] = value;
    return;
  }
  std::uint16_t& whole = registers[place.number & 3];
  whole = place.number < 4 ? static_cast<std::uint16_t>((whole & 0xFF00) | (value & 0xFF))
                           : static_cast<std::uint16_t>((whole & 0x00FF) | value << 8);
}

// --- Arithmetic ---

void Tiny8086::set_result_flags(std::uint16_t value, bool wide) {
  zero = (value & mask(wide)) == 0;
  sign = (value & top_bit(wide)) != 0;
  parity = std::popcount(static_cast<unsigned>(value & 0xFF)) % 2 == 0;
}

std::uint16_t Tiny8086::add(std::uint16_t a, std::uint16_t b, bool with_carry, bool wide) {
  const unsigned sum = a + b + (with_carry && carry ? 1U : 0U);
  const auto result = static_cast<std::uint16_t>(sum & mask(wide));
  carry = sum > mask(wide);
  overflow = ((a ^ result) & (b ^ result) & top_bit(wide)) != 0;
  adjust = ((a ^ b ^ result) & 0x10) != 0;
  set_result_flags(result, wide);
  return result;
}

std::uint16_t Tiny8086::subtract(std::uint16_t a, std::uint16_t b, bool with_borrow, bool wide) {
  const unsigned taken = b + (with_borrow && carry ? 1U : 0U);
  const auto result = static_cast<std::uint16_t>((a - taken) & mask(wide));
  carry = taken > a;
  overflow = ((a ^ b) & (a ^ result) & top_bit(wide)) != 0;
  adjust = ((a ^ b ^ result) & 0x10) != 0;
  set_result_flags(result, wide);
  return result;
}

std::uint16_t Tiny8086::logic(std::uint16_t value, bool wide) {
  carry = overflow = adjust = false;
  set_result_flags(value, wide);
  return value & mask(wide);
}

std::uint16_t Tiny8086::arithmetic(unsigned operation, std::uint16_t a, std::uint16_t b,
                                   bool wide) {
  switch (operation) {
    case 0:
      return add(a, b, false, wide);
    case 1:
      return logic(a | b, wide);
    case 2:
      return add(a, b, true, wide);
    case 3:
      return subtract(a, b, true, wide);
    case 4:
      return logic(a & b, wide);
    case 6:
      return logic(a ^ b, wide);
    default:
      return subtract(a, b, false, wide);  // SUB, CMP
  }
}

std::uint16_t Tiny8086::shift(unsigned operation, std::uint16_t value, unsigned count, bool wide) {
  const std::uint16_t top = top_bit(wide);
  for (; count > 0; --count) {
    const bool high = (value & top) != 0, low = (value & 1) != 0, old = carry;
    switch (operation) {
      case 0:  // ROL
      case 2:  // RCL
        carry = high;
        value = static_cast<std::uint16_t>(value << 1 | (operation == 0 ? high : old));
        break;
      case 1:  // ROR
      case 3:  // RCR
        carry = low;
        value = static_cast<std::uint16_t>(value >> 1 | ((operation == 1 ? low : old) ? top : 0));
        break;
      case 5:  // SHR
        carry = low;
        value = static_cast<std::uint16_t>(value >> 1);
        break;
      case 7:  // SAR
        carry = low;
        value = static_cast<std::uint16_t>(value >> 1 | (high ? top : 0));
        break;
      default:  // SHL
        carry = high;
        value = static_cast<std::uint16_t>(value << 1);
    }
    value &= mask(wide);
    overflow = high != ((value & top) != 0);
    if (operation >= 4) set_result_flags(value, wide);
  }
  return value;
}

void Tiny8086::decimal_adjust(bool adding) {
  std::uint8_t al = low(ax);
  const std::uint8_t old = al;
  const bool old_carry = carry;
  carry = false;
  if ((al & 0x0F) > 9 || adjust) {
    al = static_cast<std::uint8_t>(adding ? al + 6 : al - 6);
    adjust = true;
  }
  if (old > 0x99 || old_carry) {
    al = static_cast<std::uint8_t>(adding ? al + 0x60 : al - 0x60);
    carry = true;
  }
  set_low(ax, al);
  set_result_flags(al, false);
}

// --- Flags and conditions ---

bool Tiny8086::condition(unsigned code) const {
  bool holds = false;
  switch (code >> 1) {
    case 0:
      holds = overflow;
      break;
    case 1:
      holds = carry;
      break;
    case 2:
      holds = zero;
      break;
    case 3:
      holds = carry || zero;
      break;
    case 4:
      holds = sign;
      break;
    case 5:
      holds = parity;
      break;
    case 6:
      holds = sign != overflow;
      break;
    default:
      holds = zero || sign != overflow;
  }
  return holds != ((code & 1) != 0);
}

std::uint16_t Tiny8086::flags() const {
  return static_cast<std::uint16_t>(0xF002 | carry << 0 | parity << 2 | adjust << 4 | zero << 6 |
                                    sign << 7 | interrupts << 9 | direction << 10 | overflow << 11);
}

void Tiny8086::set_flags(std::uint16_t value) {
  carry = value & 1;
  parity = value >> 2 & 1;
  adjust = value >> 4 & 1;
  zero = value >> 6 & 1;
  sign = value >> 7 & 1;
  interrupts = value >> 9 & 1;
  direction = value >> 10 & 1;
  overflow = value >> 11 & 1;
}

}  // namespace rtcmend::test
