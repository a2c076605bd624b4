#include "deliver/debugger.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <sstream>

namespace rtcmend::test {

namespace {

constexpr auto ds = Tiny8086::ds;

std::uint16_t hex(std::string_view digits) {
  return static_cast<std::uint16_t>(std::stoul(std::string(digits), nullptr, 16));
}

std::string hex_digits(std::istringstream& line) {
  std::string digits;
  while (std::isxdigit(line.peek())) digits += static_cast<char>(line.get());
  return digits;
}

void enter(OldMachine& machine, std::istringstream& line) {
  std::uint16_t at = hex(hex_digits(line));
  for (std::string item; line >> item;) {
    if (item.front() == '\'') {
      REQUIRE(item.back() == '\'');
      for (const char c : item.substr(1, item.size() - 2))
        machine.cpu.set_byte(ds, at++, static_cast<std::uint8_t>(c));
    } else {
      REQUIRE(hex(item) <= 0xFF);
      machine.cpu.set_byte(ds, at++, static_cast<std::uint8_t>(hex(item)));
    }
  }
}

struct Stretch {
  std::uint16_t first = 0;
  std::uint16_t count = 0;
};

Stretch stretch(std::istringstream& line) {
  Stretch result{hex(hex_digits(line)), 0};
  REQUIRE(std::tolower(line.get()) == 'l');
  result.count = hex(hex_digits(line));
  return result;
}

std::string dump(const OldMachine& machine, Stretch range) {
  std::string text;
  for (std::uint16_t row = 0; row < range.count; row = static_cast<std::uint16_t>(row + 16)) {
    std::string ascii;
    text += fmt::format("{:04X}:{:04X}  ", machine.cpu.segments[ds], range.first + row);
    for (std::uint16_t i = 0; i < 16; ++i) {
      const std::uint8_t byte =
          machine.cpu.byte(ds, static_cast<std::uint16_t>(range.first + row + i));
      text += fmt::format("{:02X}{}", byte, i == 7 ? '-' : ' ');
      ascii += byte >= 0x20 && byte < 0x7F ? static_cast<char>(byte) : '.';
    }
    text += "  " + ascii + "\r\n";
  }
  return text;
}

std::string go(OldMachine& machine, std::istringstream& line) {
  if (line.peek() == '=') {
    line.get();
    machine.cpu.jump(hex(hex_digits(line)));
  }
  machine.exit_code = -1;
  machine.cpu.run(1'000'000);
  if (machine.exit_code == 0) return "\r\nProgram terminated normally\r\n";
  const auto& r = machine.cpu.registers;
  return fmt::format("AX={:04X}  BX={:04X}  CX={:04X}  DX={:04X}\r\n", r[Tiny8086::ax],
                     r[Tiny8086::bx], r[Tiny8086::cx], r[Tiny8086::dx]);
}

}  // namespace

std::string debug_session(OldMachine& machine, const std::string& script) {
  machine.cpu.load_com({});
  std::istringstream lines(script);
  std::string printed;
  for (std::string text; std::getline(lines, text);) {
    REQUIRE(!text.empty());
    REQUIRE(text.back() == '\r');
    text.pop_back();
    REQUIRE(text.size() <= 79);
    printed += "-" + text + "\r\n";
    std::istringstream line(text);
    switch (std::tolower(line.get())) {
      case 'e':
        enter(machine, line);
        break;
      case 'f': {
        const Stretch range = stretch(line);
        std::string value;
        line >> value;
        for (std::uint16_t i = 0; i < range.count; ++i)
          machine.cpu.set_byte(ds, static_cast<std::uint16_t>(range.first + i),
                               static_cast<std::uint8_t>(hex(value)));
        break;
      }
      case 'g':
        printed += go(machine, line);
        break;
      case 'd':
        printed += dump(machine, stretch(line));
        break;
      case 'o': {
        const std::uint16_t port = hex(hex_digits(line));
        std::string value;
        line >> value;
        machine.cpu.on_out(port, static_cast<std::uint8_t>(hex(value)));
        break;
      }
      case 'q':
        return printed;
      default:
        FAIL("the debugger does not know " << text);
    }
  }
  return printed;
}

}  // namespace rtcmend::test
