#include "terminal/board.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/error.h"
#include "base/near_miss.h"
#include "base/text.h"
#include "board/firmware_hex.h"
#include "cli/board_jobs.h"
#include "cli/commands.h"
#include "cli/part_option.h"
#include "cli/print.h"
#include "sheet/html.h"
#include "sheet/wiring_drawing.h"
#include "terminal/shell_word.h"

namespace rtcmend {

namespace {

/// The pieces of the command, and what goes with each.
struct Piece {
  std::string_view name;
  bool image = false, output = false, off = false, length = false;
  int (*run)(const BoardOptions&) = nullptr;
};

constexpr std::string_view head =
    "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">"
    "<title>Wiring of the bench board</title>"
    "<style>svg { width: 100%; max-width: 190mm; } pre { font: 9pt/1.3 monospace; } "
    "@page { margin: 15mm; }</style></head><body>";

const BoardFit* fit_of(const std::string& part) {
  if (part.empty()) return nullptr;
  const std::string& name = part_given(part).name;
  const BoardFit* fit = board_fit(name);
  if (fit == nullptr)
    refuse("--part", "whether " + name + " fits is not known; do not try",
           Advice{{"The parts that fit are listed without it", std::nullopt}});
  return fit;
}

/// Line by line: what is not text in a line is told as a mark, a line's end too.
Html lines_of(std::string_view content) {
  Html all = own_markup("");
  for (const std::string_view line : lines(content)) {
    all += words(line);
    all += own_markup("\n");
  }
  return all;
}

/// As a page to print, as a picture or as text, by the name's ending. A part that must not go in
/// gets no drawing that could be followed.
std::string wiring_in(const std::string& file, const BoardFit* fit) {
  const bool drawn = fit == nullptr || fit->fits;
  const std::string text = wiring_text(fit, Ink());
  if (file.ends_with(".svg") && drawn) return wiring_drawing().text() + "\n";
  if (!file.ends_with(".html")) return text;
  return std::string(head) + (drawn ? wiring_drawing().text() : std::string()) + "<pre>" +
         lines_of(text).text() + "</pre></body></html>\n";
}

int tell_wiring(const BoardOptions& given) {
  const BoardFit* fit = fit_of(given.part);
  const bool fits = fit == nullptr || fit->fits;
  if (given.voice.json) {
    print_json(wiring_json(fit));
  } else if (given.output.path.empty()) {
    print(wiring_text(fit, given.voice.ink()));
  } else {
    check_output(given.output, {});
    write_whole(given.output.path, wiring_in(given.output.path, fit), {given.output.force, {}});
    if (given.output.path != "-")
      print(fmt::format("The wiring is in {}.\n", shell_word(given.output.path)));
  }
  return fits ? exit_good : exit_bad;
}

int put_firmware(const BoardOptions& given) {
  check_output(given.output, {});
  if (firmware_hex().empty())
    refuse("board firmware", "this program was built without avr-gcc and carries no firmware",
           "build it where the packages gcc-avr and avr-libc are");
  write_whole(given.output.path, firmware_hex(), {given.output.force, {}});
  const std::string text = firmware_text(given.output.path);
  if (given.voice.json)
    print_json(Json{{"what", "firmware"}, {"output", given.output.path}});
  else if (given.output.path == "-")
    print_aside(text);
  else
    print(text);
  return exit_good;
}

constexpr Piece pieces[] = {
    {"wiring", false, true, false, false, tell_wiring},
    {"firmware", false, true, false, false, put_firmware},
    {"read", false, true, false, false, read_at_board},
    {"write", true, true, false, false, write_at_board},
    {"hold", false, true, true, false, hold_at_board},
    {"clock", false, false, false, true, clock_at_board},
};

const Piece& piece_named(const std::string& name) {
  std::vector<std::string> names;
  for (const Piece& piece : pieces) {
    if (piece.name == name) return piece;
    names.emplace_back(piece.name);
  }
  refuse("board", fmt::format("\"{}\" is none of {}", name, join(names, ", ")),
         "rtcmend board " + near_or_all(name, names));
}

void refuse_besides(const Piece& piece, std::string_view option) {
  refuse(std::string(option), fmt::format("it does not go with board {}", piece.name),
         "rtcmend board --help");
}

int board(const BoardOptions& given) {
  const Piece& piece = piece_named(given.what);
  if (!given.source.path.empty() && !piece.image) refuse_besides(piece, "IMAGE");
  if (given.source.path.empty() && piece.image)
    refuse("IMAGE", "it is needed, and was not given", "the image that goes into the chip");
  if (!given.output.path.empty() && !piece.output) refuse_besides(piece, "-o");
  if (!given.off.empty() && !piece.off) refuse_besides(piece, "--off");
  if (!given.length.empty() && !piece.length) refuse_besides(piece, "--for");
  if (given.set_clock && !piece.image) refuse_besides(piece, "--set-clock");
  if (!given.log.empty() && !piece.length) refuse_besides(piece, "--log");
  return piece.run(given);
}

}  // namespace

Action set_up_board(Options& options) {
  auto given = std::make_shared<BoardOptions>();
  options.word(
      given->what, "WHAT",
      "wiring: how board and chip are put together, cautions first; firmware: what goes on "
      "the board; read, write: the chip's bytes; hold: whether it keeps them without "
      "power; clock: how well it keeps time");
  options.optional_word(given->source.path, "IMAGE", "write: the image that goes into the chip");
  options.value(given->port, "--port", "PORT",
                "where the board is (/dev/ttyUSB0, COM7); found by itself when only one answers");
  add_output(options, given->output);
  options.value(given->part, "--part", "PART", "the chip's number: whether it fits");
  options.value(given->size, "--chip-size", "BYTES", "64 or 128; found out when left out");
  options.flag(given->set_clock, "--set-clock",
               "write: set the chip's clock by this computer's; else its own time goes on");
  options.value(given->off, "--off", "TIME", "hold: how long without power; 30m when left out");
  options.value(given->length, "--for", "TIME", "clock: how long to watch; 5m when left out");
  options.value(given->log, "--log", "FILE", "clock: add the reading to drift's log");
  options.flag(given->yes, "--yes",
               "hold: the chip may lose what it holds; it is saved first. Asked for else");
  options.flag(given->unsound_anyway, "--unsound-anyway",
               "write: an image that is not sound as well");
  add_reading(options, given->source);
  add_voice(options, given->voice);
  options.example("rtcmend board wiring --part DS12887");
  options.example("rtcmend board read -o chip.bin");
  options.example("rtcmend board write new.bin -o before.bin --set-clock");
  options.example("rtcmend board hold -o before.bin --off 30m");
  options.example("rtcmend board clock --for 5m --log clock.log");
  return [given] { return board(*given); };
}

}  // namespace rtcmend
