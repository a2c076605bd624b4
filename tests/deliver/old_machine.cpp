#include "deliver/old_machine.h"

#include <algorithm>

namespace rtcmend::test {

namespace {

constexpr std::size_t tick_count = 0x46C;  // 40h:6Ch
constexpr std::size_t ticks_a_second = 18;
constexpr std::size_t serial_ports = 0x400;  // 40h:0, a word a port (RBIL61)

bool is_serial(std::uint16_t port) {
  return port >= SerialPort::base && port < SerialPort::base + 8;
}

}  // namespace

std::uint8_t ChipModel::read() const {
  return present ? bytes[place()] : 0xFF;
}

void ChipModel::write(std::uint8_t value) {
  if (writes.empty() && on_first_write) on_first_write(*this);
  writes.emplace_back(selected, value);
  const bool read_only = place() == 0x0C || place() == 0x0D;
  if (present && writable && !read_only) bytes[place()] = value;
}

void ChipModel::second() {
  const bool frozen = !counts || (bytes[0x0A] & 0x70) != 0x20 || (bytes[0x0B] & 0x80) != 0;
  if (frozen) return;
  const bool binary = bytes[0x0B] & 4;
  bytes[0] = static_cast<std::uint8_t>(bytes[0] + 1);
  if (!binary && (bytes[0] & 0x0F) == 10) bytes[0] = static_cast<std::uint8_t>(bytes[0] + 6);
  if (bytes[0] == (binary ? 60 : 0x60)) bytes[0] = 0;
}

Image ChipModel::image(std::size_t size) const {
  return Image(std::span(bytes).first(size));
}

// Registers by offset as in National's sheet of the 16450: 0 data (divisor low while bit 7 of 3 is
// set), 1 interrupts (divisor high), 3 line control, 5 line status, whose bit 5 says that it can
// send.
std::uint8_t SerialPort::read(std::uint16_t port) const {
  if (!present) return 0xFF;
  return port - base == 5 ? 0x60 : registers_.at(port - base);
}

void SerialPort::write(std::uint16_t port, std::uint8_t value) {
  const bool divisor = (registers_[3] & 0x80) != 0;
  const int offset = port - base;
  if (divisor && offset == 0)
    divisor_low_ = value;
  else if (divisor && offset == 1)
    divisor_high_ = value;
  else if (offset == 0)
    // 115,200 / 12 = 9600; 8 data bits, 1 stop bit, no parity.
    sent += divisor_low_ == 12 && divisor_high_ == 0 && registers_[3] == 3
                ? static_cast<char>(value)
                : '?';
  else
    registers_.at(static_cast<std::size_t>(offset)) = value;
}

OldMachine::OldMachine() {
  // A sound clock: 1994-05-06 12:00:00, a Friday, in BCD.
  chip.bytes = {0x00, 0, 0x00, 0, 0x12, 0, 6, 0x06, 0x05, 0x94, 0x26, 0x02, 0x00, 0x80};
  cpu.on_in = [this](std::uint16_t port) -> std::uint8_t {
    if (is_serial(port)) return serial.read(port);
    return port == 0x71 ? chip.read() : 0xFF;
  };
  cpu.on_out = [this](std::uint16_t port, std::uint8_t value) {
    if (port == 0x70) {
      chip.selected = value & 0x7F;
      chip.nmi_masked = value & 0x80;
    } else if (port == 0x71) {
      if (cpu.interrupts || !chip.nmi_masked) guarded = false;
      chip.write(value);
    } else if (serial.present && is_serial(port)) {
      serial.write(port, value);
    } else {
      ++other_writes;
    }
  };
  cpu.on_interrupt = [this](std::uint8_t number) { return interrupt(number); };
  cpu.beat = 2000;  // ticks come fast, so that waiting costs little
  cpu.on_beat = [this] {
    ++cpu.memory[tick_count];
    if (cpu.memory[tick_count] == 0) ++cpu.memory[tick_count + 1];
    if (++beats_ % ticks_a_second == 0) chip.second();
  };
}

void OldMachine::load(std::string_view program) {
  cpu.load_com({reinterpret_cast<const std::uint8_t*>(program.data()), program.size()});
  Dice dice(static_cast<std::uint32_t>(program.size()) + ++runs_);
  scramble_memory(dice, program.size());
}

Stop OldMachine::run_com(std::string_view program, std::size_t most_instructions) {
  load(program);
  return cpu.run(most_instructions);
}

Stop OldMachine::run_booted(std::string_view program, std::size_t most_instructions) {
  load(program);
  cpu.segments[Tiny8086::ds] = cpu.segments[Tiny8086::es] = 0;
  return cpu.run(most_instructions);
}

void OldMachine::scramble(Dice& dice, std::size_t kept) {
  for (Address at = Image::ram_start; at < 0x80; ++at) chip.bytes[at] = dice.byte();
  scramble_memory(dice, kept);
}

void OldMachine::scramble_memory(Dice& dice, std::size_t kept) {
  const std::size_t start = cpu.segments[Tiny8086::cs] * std::size_t{16};
  for (std::size_t at = 2; at < 0xFFFE; ++at)
    if (at < 0x100 || at >= 0x100 + kept) cpu.memory[start + at] = dice.byte();
  // DOS itself puts down what was typed behind the name: its length, and the text up to Enter.
  cpu.memory[start + 0x80] = static_cast<std::uint8_t>(tail.size());
  std::copy(tail.begin(), tail.end(),
            cpu.memory.begin() + static_cast<std::ptrdiff_t>(start) + 0x81);
  cpu.memory[start + 0x81 + tail.size()] = '\r';
  cpu.memory[serial_ports] = serial.present ? SerialPort::base & 0xFF : 0;
  cpu.memory[serial_ports + 1] = serial.present ? SerialPort::base >> 8 : 0;
  for (const auto r : {Tiny8086::ax, Tiny8086::cx, Tiny8086::dx, Tiny8086::bx, Tiny8086::bp,
                       Tiny8086::si, Tiny8086::di})
    cpu.registers[r] = static_cast<std::uint16_t>(dice.byte() << 8 | dice.byte());
}

std::uint8_t OldMachine::next_key() {
  if (on_key) on_key();
  if (!early_keys.empty()) {
    const auto key = static_cast<std::uint8_t>(early_keys.front());
    early_keys.erase(0, 1);
    return key;
  }
  if (keys.empty()) return '\r';
  const auto key = static_cast<std::uint8_t>(keys.front());
  keys.erase(0, 1);
  return key == '\n' ? std::uint8_t{'\r'} : key;
}

bool OldMachine::interrupt(std::uint8_t number) {
  switch (number) {
    case 0x20:
      exit_code = 0;
      return false;
    case 0x21:
      return dos();
    default:
      return firmware(number);
  }
}

/// Screen, keys and disks as the firmware offers them; there is no disk.
bool OldMachine::firmware(std::uint8_t number) {
  const std::uint8_t function = cpu.high(Tiny8086::ax);
  if (number == 0x10 && function == 0x0E) {
    screen += static_cast<char>(cpu.low(Tiny8086::ax));
    glass.put(static_cast<char>(cpu.low(Tiny8086::ax)));
  } else if (number == 0x10 && function == 0x00) {
    glass.set_mode(cpu.low(Tiny8086::ax));
  } else if (number == 0x10 && function == 0x02) {
    glass.place(cpu.high(Tiny8086::dx), cpu.low(Tiny8086::dx));
  } else if (number == 0x10 && function == 0x0F) {
    cpu.registers[Tiny8086::ax] = static_cast<std::uint16_t>(glass.columns() << 8 | glass.mode());
  } else if (number == 0x16 && function == 0x00) {
    cpu.registers[Tiny8086::ax] = next_key();
  } else if (number == 0x16 && function == 0x01) {
    cpu.zero = !key_waits();
  } else if (number == 0x13) {
    cpu.carry = true;
  } else {
    return false;
  }
  return true;
}

bool OldMachine::dos() {
  switch (cpu.high(Tiny8086::ax)) {
    case 0x02:
      screen += static_cast<char>(cpu.low(Tiny8086::dx));
      return true;
    case 0x07:
      cpu.set_low(Tiny8086::ax, next_key());
      return true;
    case 0x0B:
      cpu.set_low(Tiny8086::ax, key_waits() ? 0xFF : 0);
      return true;
    case 0x0C:
      early_keys.clear();
      return true;
    case 0x40: {
      const std::uint16_t at = cpu.registers[Tiny8086::dx];
      for (std::uint16_t i = 0; i < cpu.registers[Tiny8086::cx]; ++i)
        errors += static_cast<char>(cpu.byte(Tiny8086::ds, static_cast<std::uint16_t>(at + i)));
      return cpu.registers[Tiny8086::bx] == 2;
    }
    case 0x0D:
      return true;
    case 0x4C:
      exit_code = cpu.low(Tiny8086::ax);
      return false;
    default:
      return false;
  }
}

}  // namespace rtcmend::test
