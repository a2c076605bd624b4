#include "deliver/debugger.h"

#include <cctype>
#include <fmt/format.h>
#include <optional>
#include <sstream>
#include <stdexcept>

namespace rtcmend::test {

namespace {

constexpr auto ds = Tiny8086::ds;
constexpr std::size_t patience = 300'000;  // instructions; a program that went astray may never end
constexpr std::size_t line_most = 79;      // its input line holds 80 characters with the end
constexpr const char* error = "         ^ Error\r\n";

/// What the debugger answers with its "^ Error".
struct NotUnderstood : std::runtime_error {
  NotUnderstood() : std::runtime_error("^ Error") {}
};

/// One line, read from left to right.
class Line {
 public:
  explicit Line(std::string text) : text_(std::move(text)) {}

  bool at_end() {
    skip_blanks();
    return at_ == text_.size();
  }
  char take() { return at_ < text_.size() ? text_[at_++] : '\0'; }
  bool take(char wanted) {
    skip_blanks();
    if (at_ == text_.size() || std::tolower(text_[at_]) != wanted) return false;
    ++at_;
    return true;
  }
  std::uint16_t hex(std::size_t most_digits = 4) {
    skip_blanks();
    const std::size_t start = at_;
    while (at_ < text_.size() && std::isxdigit(static_cast<unsigned char>(text_[at_]))) ++at_;
    if (at_ == start || at_ - start > most_digits) throw NotUnderstood();
    return static_cast<std::uint16_t>(std::stoul(text_.substr(start, at_ - start), nullptr, 16));
  }
  /// Bytes in hex and texts in quotes, up to the end.
  std::vector<std::uint8_t> list() {
    std::vector<std::uint8_t> bytes;
    while (!at_end()) {
      const char quote = text_[at_];
      if (quote != '\'' && quote != '"') {
        bytes.push_back(static_cast<std::uint8_t>(hex(2)));
        continue;
      }
      const auto end = text_.find(quote, ++at_);
      if (end == std::string::npos) throw NotUnderstood();
      bytes.insert(bytes.end(), text_.begin() + static_cast<std::ptrdiff_t>(at_),
                   text_.begin() + static_cast<std::ptrdiff_t>(end));
      at_ = end + 1;
    }
    if (bytes.empty()) throw NotUnderstood();
    return bytes;
  }
  void end() {
    if (!at_end()) throw NotUnderstood();
  }

 private:
  void skip_blanks() {
    while (at_ < text_.size() && (text_[at_] == ' ' || text_[at_] == ',')) ++at_;
  }
  std::string text_;
  std::size_t at_ = 0;
};

struct Stretch {
  std::uint16_t first = 0;
  std::uint16_t count = 0;
};

Stretch stretch(Line& line) {
  Stretch result{line.hex(), 0};
  if (line.take('l'))
    result.count = line.hex();
  else
    result.count = static_cast<std::uint16_t>(line.hex() - result.first + 1);
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

std::string go(OldMachine& machine, Line& line) {
  if (line.take('=')) machine.cpu.jump(line.hex());
  line.end();
  machine.exit_code = -1;
  const Stop stop = machine.cpu.run(patience);
  if (machine.exit_code == 0) return "\r\nProgram terminated normally\r\n";
  if (stop != Stop::ended) return "";  // the machine hangs, or has started again
  const auto& r = machine.cpu.registers;
  return fmt::format("AX={:04X}  BX={:04X}  CX={:04X}  DX={:04X}  SP={:04X}  BP={:04X}\r\n",
                     r[Tiny8086::ax], r[Tiny8086::bx], r[Tiny8086::cx], r[Tiny8086::dx],
                     r[Tiny8086::sp], r[Tiny8086::bp]);
}

void put(OldMachine& machine, std::uint16_t at, std::span<const std::uint8_t> bytes) {
  for (const std::uint8_t byte : bytes) machine.cpu.set_byte(ds, at++, byte);
}

/// Commands that change memory. False when it is none of them.
bool change_memory(OldMachine& machine, char command, Line& line) {
  if (command == 'e') {
    const std::uint16_t at = line.hex();
    put(machine, at, line.list());
    return true;
  }
  if (command == 'f') {
    const Stretch range = stretch(line);
    const auto pattern = line.list();
    for (std::size_t i = 0; i < range.count; ++i)
      put(machine, static_cast<std::uint16_t>(range.first + i),
          std::span(pattern).subspan(i % pattern.size(), 1));
    return true;
  }
  if (command != 'm') return false;
  const Stretch range = stretch(line);
  const std::uint16_t to = line.hex();
  line.end();
  std::vector<std::uint8_t> bytes;
  for (std::size_t i = 0; i < range.count; ++i)
    bytes.push_back(machine.cpu.byte(ds, static_cast<std::uint16_t>(range.first + i)));
  put(machine, to, bytes);
  return true;
}

std::string obey(OldMachine& machine, char command, Line& line) {
  if (change_memory(machine, command, line)) return "";
  if (command == 'g') return go(machine, line);
  if (command == 'd') return dump(machine, stretch(line));
  if (command != 'o') throw NotUnderstood();
  const std::uint16_t port = line.hex();
  const auto value = static_cast<std::uint8_t>(line.hex(2));
  line.end();
  machine.cpu.on_out(port, value);
  return "";
}

}  // namespace

void fresh_debugger(OldMachine& machine, Dice& dice) {
  machine.cpu.load_com({});
  machine.scramble(dice);
}

std::string debug_session(OldMachine& machine, const std::string& script) {
  if (machine.cpu.segments[ds] == 0) machine.cpu.load_com({});
  std::istringstream lines(script);
  std::string printed;
  for (std::string text; std::getline(lines, text);) {
    if (!text.empty() && text.back() == '\r') text.pop_back();
    text.resize(std::min(text.size(), line_most));
    printed += "-" + text + "\r\n";
    Line line(text);
    if (line.at_end()) continue;
    const char command = static_cast<char>(std::tolower(line.take()));
    if (command == 'q' && line.at_end()) return printed;
    try {
      printed += obey(machine, command, line);
    } catch (const NotUnderstood&) {
      printed += error;
    }
  }
  return printed;
}

}  // namespace rtcmend::test
