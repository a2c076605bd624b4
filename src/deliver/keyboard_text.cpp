#include "deliver/keyboard_text.h"

#include <algorithm>
#include <fmt/format.h>
#include <utility>

#include "check/crc.h"
#include "deliver/keyboard_slips.h"
#include "deliver/keystrokes.h"
#include "deliver/letter_pairs.h"
#include "deliver/program.h"
#include "deliver/runs.h"

namespace rtcmend {

namespace {

using Bytes = std::vector<std::uint8_t>;

constexpr std::size_t line_length = 32;     // letters, two a byte
constexpr std::size_t bytes_a_letter = 8;   // the program prints a check letter for so many
constexpr std::size_t letters_a_line = 2;   // a slip stays unseen in them once in 256
constexpr std::size_t first_letters = 8;    // for the first line, which has 64 characters
constexpr std::size_t letters_abreast = 4;  // what fits beside it on 80 columns
constexpr std::size_t lines_a_part = 6;     // what checks and prints stands in the first

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

std::vector<std::string> typed_lines(const TypedProgram& decoded) {
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

bool finds_slips(const TypedProgram& decoded) {
  const std::uint16_t before = Crc(crc_models::ibm_3740)(decoded.loader);
  const auto lines = typed_lines(decoded);
  return slips_are_found(before, stored(std::span(lines).subspan(1)), writing_crc);
}

/// The letters that the program prints when all is well, one for 8 bytes of memory.
std::string check_letters(const TypedProgram& decoded) {
  Bytes memory = decoded.loader;
  memory.insert(memory.end(), decoded.program.begin(), decoded.program.end());
  const Crc crc(crc_models::ibm_3740);
  std::string letters;
  for (std::size_t end = bytes_a_letter; end <= memory.size(); end += bytes_a_letter)
    letters += static_cast<char>('K' + (crc(std::span(memory).first(end)) & 0x0F));
  return letters;
}

/// In groups of eight, for the eye.
std::string grouped(std::string_view line) {
  std::string text;
  for (std::size_t at = 0; at < line.size(); at += 8)
    text += (at == 0 ? "" : " ") + std::string(line.substr(at, 8));
  return text;
}

/// Line i, counted from 0, with the letters that the program prints for it, further ones below it.
std::string sheet_line(std::size_t i, std::string_view line, std::string_view letters) {
  const std::size_t from = i == 0 ? 0 : first_letters + (i - 1) * letters_a_line;
  const std::string_view check =
      letters.substr(std::min(from, letters.size()), i == 0 ? first_letters : letters_a_line);
  std::string text =
      fmt::format("{:>2}  {:<72}{}\n", i + 1, grouped(line), check.substr(0, letters_abreast));
  for (std::size_t at = letters_abreast; at < check.size(); at += letters_abreast)
    text += fmt::format("{:76}{}\n", "", check.substr(at, letters_abreast));
  return text;
}

constexpr std::string_view typing_rules =
    "FIRST SEE WHETHER A DISK TAKES WHAT YOU TYPE: type COPY CON T, Enter, then X,\n"
    "Enter, and the key F6, Enter. When DOS says that 1 file was copied, it does.\n"
    "Anything else (write protect error, disk full, access denied): change to\n"
    "another drive (C:, B:) and try there; slide the disk's write protection off;\n"
    "or start a memory disk where DOS brings one (DEVICE=RAMDRIVE.SYS or VDISK.SYS\n"
    "in CONFIG.SYS) and change to it. Where none of that is to be had, the\n"
    "debugger's script needs no disk that can be written; without a debugger only a\n"
    "programmer is left, for a chip that takes its cell along.\n\n"
    "Type the lines below at the DOS prompt, Enter behind each one. The blanks\n"
    "between groups are for the eye only: the text holds none. Capital and small\n"
    "letters differ. There is no digit 0 or 1 in it, and no small l. The right\n"
    "column is not typed: it is what the program will print.\n\n"
    "What counts is what the screen shows: unless KEYB was started the keys are\n"
    "those of a US keyboard, whatever is printed on them. In line 1 ^ is a\n"
    "character (there Shift and 6); where it waits for a letter, press the space\n"
    "bar after it. A line is corrected with the backspace key before its Enter;\n"
    "behind it, go on and type the whole part again.\n\n";

constexpr std::string_view when_wrong =
    "When not all letters of the right column appear, or others do, nothing was\n"
    "done to the chip:\n"
    "- nothing is printed, the machine hangs, or one of the first eight letters\n"
    "  differs: look at lines 1 to 6;\n"
    "- another letter differs: the mistake is in the line of the first one that\n"
    "  does, or in the line before;\n"
    "- no letter differs, and nothing follows them: look at the last line, then at\n"
    "  lines 1 to 6.\n"
    "Type the part with the mistake again, then the COPY line with the plus signs.\n";

/// In parts, each a file of its own, so that a slip costs only its part.
std::string typing_sheet(const std::vector<std::string>& lines, std::string_view letters,
                         const SheetWords& words) {
  std::string sheet(words.before);
  sheet += typing_rules;
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
  return sheet + fmt::format("    COPY {} {}.COM\n\n", files, words.name) +
         std::string(words.after) + std::string(when_wrong);
}

}  // namespace

std::optional<TypedProgram> typed_program(Bytes program) {
  TypedProgram made{unveiled_loader(), std::move(program)};
  Bytes typed = made.loader;
  typed.insert(typed.end(), made.program.begin(), made.program.end());
  const Bytes closing = closing_bytes(typed);
  made.program.insert(made.program.end(), closing.begin(), closing.end());
  if (has_zero(made.program) || !finds_slips(made)) return std::nullopt;
  return made;
}

Delivery typed_delivery(const TypedProgram& typed, const SheetWords& words) {
  const auto lines = typed_lines(typed);
  Delivery delivery;
  delivery.content = stored(lines);
  delivery.sheet = typing_sheet(lines, check_letters(typed), words);
  delivery.keystrokes = count_keystrokes(delivery.content);
  return delivery;
}

}  // namespace rtcmend
