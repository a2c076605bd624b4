#include "cli/first_steps.h"

#include <fmt/format.h>

#include "cli/commands.h"
#include "terminal/columns.h"

namespace rtcmend {

namespace {

constexpr Situation table[] = {
    {"I have a dump", "rtcmend show dump.bin", "what it says, and what is wrong"},
    {"I have nothing but codes on the screen", "rtcmend explain 161 163", "what they mean"},
    {"I can start the machine, but have no dump", "rtcmend capture --as boot-floppy -o read.img",
     "reads the chip"},
    {"I need an image from nothing", "rtcmend compose --ask --layout at -o new.bin", "asks you"},
    {"I do not know the layout", "rtcmend identify dump.bin", "which ones fit"},
    {"Nobody ever wrote the layout down", "rtcmend trace session.json -o draft.json", "finds it"},
    {"I have an image and want it in the machine", "rtcmend deliver --list", "ways in"},
    {"I have the chip in my hand", "rtcmend board wiring", "a small board reads and writes it"},
    {"The cell is dead", "rtcmend plan", "how to change it, cautions first"},
};

constexpr std::string_view what_it_is =
    "rtcmend mends the memory of a PC clock chip: 64 or 128 bytes behind a battery.\n\n";

}  // namespace

std::span<const Situation> situations() {
  return table;
}

std::string guide() {
  std::string text(what_it_is);
  for (const Situation& situation : table)
    text +=
        fmt::format("  {}:\n      {}   ({})\n", situation.words, situation.command, situation.then);
  return text + "\n\"rtcmend help\" lists all commands, \"rtcmend COMMAND --help\" explains one.\n";
}

std::string overview() {
  std::string text(what_it_is);
  for (const Command& command : commands())
    text += fmt::format("  {}:\n      {}\n", command.situation, command.example);
  text += "\nCommands (rtcmend COMMAND --help says more):\n";
  for (const Command& command : commands())
    text += fmt::format("  {:<10} {}\n", command.name, hanging(command.summary, 13));
  return text + "\n" +
         hanging(
             "A dump may be raw bytes, hex text of any style, Intel HEX, S-records, a C array, "
             "rows "
             "copied from a screen, or what a QR code of a chip says. Nothing is written over "
             "without --force.",
             0) +
         "\n";
}

}  // namespace rtcmend
