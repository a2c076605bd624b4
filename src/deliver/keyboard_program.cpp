#include <algorithm>
#include <fmt/format.h>
#include <stdexcept>

#include "base/error.h"
#include "check/crc.h"
#include "deliver/balancer.h"
#include "deliver/carriers.h"
#include "deliver/keyboard_slips.h"
#include "deliver/keystrokes.h"
#include "deliver/letter_pairs.h"
#include "deliver/program.h"
#include "deliver/runs.h"

namespace rtcmend {

namespace {

using Bytes = std::vector<std::uint8_t>;

constexpr std::size_t line_length = 32;     // letters, two a byte
constexpr std::size_t bytes_a_letter = 16;  // the program prints a check letter for so many
constexpr std::size_t first_letters = 4;    // for the first line, which has 64 characters
constexpr std::size_t lines_a_part = 6;     // what checks and prints stands in the first
constexpr std::uint8_t nmi_off = 0x80;      // bit 7 of port 70h (RBIL61)
constexpr std::uint16_t start = 0x140;      // where the decoded program stands

bool has_zero(const Bytes& bytes) {
  return std::find(bytes.begin(), bytes.end(), std::uint8_t{0}) != bytes.end();
}

/// The first line as it stands in memory once it has taken its veil off: seven bytes changed.
Bytes unveiled_loader() {
  Bytes line = Program("keyboard_loader").bytes();
  Program loop("keyboard_loop");
  std::copy(loop.bytes().begin(), loop.bytes().end(),
            line.end() - static_cast<std::ptrdiff_t>(loop.bytes().size()));
  return line;
}

/// The runs under their veil (asm/keyboard_writer.asm).
Bytes veiled(const std::vector<Run>& runs, std::uint8_t veil) {
  Bytes bytes;
  for (const Run& run : runs) {
    auto address = static_cast<std::uint8_t>(run.first | nmi_off);
    bytes.push_back(address ^ veil);
    bytes.push_back(static_cast<std::uint8_t>(run.bytes.size() ^ veil));
    for (const std::uint8_t byte : run.bytes) bytes.push_back(byte ^ address++ ^ veil);
  }
  return bytes;
}

struct Decoded {
  Bytes loader;   ///< the first line in memory, 100h-13Fh
  Bytes program;  ///< from 140h on, with runs and closing bytes, without the 00h that ends it
};

void fill_balance(Program& program, const Runs& runs, std::uint16_t list_at, std::uint8_t veil) {
  fill_stretch(program, runs, list_at);
  const auto spoiled_address = static_cast<std::uint8_t>(runs.spoil.front().first | nmi_off);
  program.fill_byte("balance", runs.balanced->balance ^ veil);
  program.fill_byte("veil_of_balance", veil);
  program.fill_byte("veil_of_spoiled", spoiled_address ^ veil);
  program.fill_byte("veil_of_byte", veil);
}

/// The program with its bytes veiled by xor with `veil`; nothing when a byte comes out at 00h.
std::optional<Decoded> decoded_with(std::uint8_t veil, const Runs& runs) {
  Program program(runs.balanced ? "keyboard_balancer" : "keyboard_writer");
  const auto list_at = static_cast<std::uint16_t>(start + program.bytes().size());
  Bytes list = veiled(joined({runs.spoil, runs.clock}), veil);
  const auto compared_from = static_cast<std::uint16_t>(list_at + list.size());
  const Bytes staying = veiled(joined({runs.ram, runs.last}), veil);
  list.insert(list.end(), staying.begin(), staying.end());
  list.insert(list.end(), {veil, veil});
  program.fill_byte("veil", veil);
  program.fill_word("veil_twice", static_cast<std::uint16_t>(veil << 8 | veil));
  program.fill_word("compared_from", compared_from);
  if (runs.balanced) fill_balance(program, runs, list_at, veil);

  Decoded decoded{unveiled_loader(), program.bytes()};
  decoded.program.insert(decoded.program.end(), list.begin(), list.end());
  Bytes typed = decoded.loader;
  typed.insert(typed.end(), decoded.program.begin(), decoded.program.end());
  const Bytes closing = closing_bytes(typed);
  decoded.program.insert(decoded.program.end(), closing.begin(), closing.end());
  if (has_zero(decoded.program)) return std::nullopt;
  return decoded;
}

std::vector<std::string> typed_lines(const Decoded& decoded) {
  Bytes ended = decoded.program;
  ended.push_back(0);
  const std::string letters = letter_pairs(ended);
  const Bytes loader = Program("keyboard_loader").bytes();
  std::vector<std::string> lines{std::string(loader.begin(), loader.end())};
  for (std::size_t at = 0; at < letters.size(); at += line_length)
    lines.push_back(letters.substr(at, line_length));
  return lines;
}

/// Lines as COPY CON stores them.
std::string stored(std::span<const std::string> lines) {
  std::string text;
  for (const std::string& line : lines) text += line + "\r\n";
  return text;
}

bool finds_slips(const Decoded& decoded) {
  const std::uint16_t before = Crc(crc_models::ibm_3740)(decoded.loader);
  const auto lines = typed_lines(decoded);
  return slips_are_found(before, stored(std::span(lines).subspan(1)), writing_crc);
}

/// With the first veil that keeps zeros out and lets no slip through.
std::optional<Decoded> first_decoded(const Runs& runs) {
  for (int veil = 0xFF; veil > 0; --veil) {
    auto decoded = decoded_with(static_cast<std::uint8_t>(veil), runs);
    if (decoded && finds_slips(*decoded)) return decoded;
  }
  return std::nullopt;
}

/// Where an address of the balancing program has a byte 00h, no veil helps: then the plain one,
/// which leaves one state in 256 to chance.
Decoded decoded_program(Runs runs) {
  auto decoded = first_decoded(runs);
  if (!decoded && runs.balanced) {
    runs.balanced.reset();
    decoded = first_decoded(runs);
  }
  if (!decoded) throw std::logic_error("no veil keeps zeros out of the keyboard program");
  return *decoded;
}

/// The letters that the program prints when all is well, one for 16 bytes of memory.
std::string check_letters(const Decoded& decoded) {
  Bytes memory = decoded.loader;
  memory.insert(memory.end(), decoded.program.begin(), decoded.program.end());
  const Crc crc(crc_models::ibm_3740);
  std::string letters;
  for (std::size_t end = bytes_a_letter; end <= memory.size(); end += bytes_a_letter)
    letters += static_cast<char>('A' + (crc(std::span(memory).first(end)) & 0x0F));
  return letters;
}

/// In groups of eight, for the eye.
std::string grouped(std::string_view line) {
  std::string text;
  for (std::size_t at = 0; at < line.size(); at += 8)
    text += (at == 0 ? "" : " ") + std::string(line.substr(at, 8));
  return text;
}

/// Line i, counted from 0, with the letters that the program prints for it.
std::string sheet_line(std::size_t i, std::string_view line, std::string_view letters) {
  const std::size_t count = i == 0 ? first_letters : 1;
  const std::size_t at = i == 0 ? 0 : first_letters - 1 + i;
  const auto check = at < letters.size() ? letters.substr(at, count) : std::string_view{};
  return fmt::format("{:>2}  {:<72}{}\n", i + 1, grouped(line), check);
}

/// In parts, each a file of its own, so that a slip costs only its part.
std::string typing_sheet(const std::vector<std::string>& lines, std::string_view letters) {
  std::string sheet =
      "Type the lines below at the DOS prompt, Enter behind each one. The blanks\n"
      "between groups are for the eye only: the text holds none. Capital and small\n"
      "letters differ. There is no digit 0 or 1 in it, and no small l.\n\n"
      "What counts is what the screen shows: unless KEYB was started the keys are\n"
      "those of a US keyboard, whatever is printed on them. In line 1 ^ is a\n"
      "character (there Shift and 6); where it waits for a letter, press the space\n"
      "bar after it.\n\n";
  std::string files;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (i % lines_a_part == 0) {
      const char part = static_cast<char>('A' + i / lines_a_part);
      sheet += fmt::format("    COPY CON {}\n", part);
      files += files.empty() ? std::string(1, part) : fmt::format("+{}", part);
    }
    sheet += sheet_line(i, lines[i], letters);
    if ((i + 1) % lines_a_part == 0 || i + 1 == lines.size()) sheet += "    (F6, then Enter)\n";
  }
  return sheet + fmt::format("    COPY {} MEND.COM\n\n", files) +
         "Then type MEND and Enter. It prints the letters of the right column, and\n"
         "behind them a plus sign when the chip holds the bytes, a minus sign when a\n"
         "byte did not take. Without a sign nothing was written:\n"
         "- nothing is printed, the machine hangs, or one of the first four letters\n"
         "  differs: look at lines 1 to 6;\n"
         "- another letter differs: the mistake is in the line of the first one that\n"
         "  does, or in the line before;\n"
         "- no letter differs: look at the last line, then at lines 1 to 6.\n"
         "Type the part with the mistake again, then the COPY line with the plus signs.\n";
}

}  // namespace

Delivery keyboard_program(const Parcel& parcel, const WritePlan& plan) {
  refuse_when_lost(parcel);
  const Decoded decoded = decoded_program(runs_of(parcel, plan));
  const auto lines = typed_lines(decoded);
  Delivery delivery;
  delivery.content = stored(lines);
  delivery.sheet = typing_sheet(lines, check_letters(decoded));
  delivery.keystrokes = count_keystrokes(delivery.content);
  return delivery;
}

}  // namespace rtcmend
