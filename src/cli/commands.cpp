#include "cli/commands.h"

#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "terminal/columns.h"

namespace rtcmend {

Action set_up_show(Options& options);
Action set_up_verify(Options& options);
Action set_up_identify(Options& options);
Action set_up_amend(Options& options);
Action set_up_seal(Options& options);
Action set_up_compose(Options& options);
Action set_up_convert(Options& options);
Action set_up_compare(Options& options);
Action set_up_deliver(Options& options);
Action set_up_capture(Options& options);
Action set_up_forecast(Options& options);
Action set_up_explain(Options& options);
Action set_up_sheet(Options& options);
Action set_up_page(Options& options);
Action set_up_layouts(Options& options);
Action set_up_drives(Options& options);
Action set_up_chips(Options& options);
Action set_up_plan(Options& options);
Action set_up_drift(Options& options);
Action set_up_history(Options& options);
Action set_up_completion(Options& options);
Action set_up_manual(Options& options);
Action set_up_solve(Options& options);
Action set_up_trace(Options& options);
Action set_up_audit(Options& options);
Action set_up_board(Options& options);

namespace {

constexpr Command table[] = {
    {"show", "what a dump says: clock, registers, fields, checks, findings",
     "I have a dump and want to know what it says", "rtcmend show dump.bin", set_up_show},
    {"verify", "judge a dump: sound or not, and why", "I only want to know whether a dump is sound",
     "rtcmend verify dump.bin", set_up_verify},
    {"identify", "which layouts fit a dump, and how well",
     "I do not know which layout my machine uses", "rtcmend identify dump.bin", set_up_identify},
    {"amend", "change fields, set the clock, reseal, write", "I want to change something in a dump",
     "rtcmend amend dump.bin --set floppy_a=1.44M -o new.bin", set_up_amend},
    {"seal", "recompute the checks and nothing else", "Only the checks are wrong",
     "rtcmend seal dump.bin -o sealed.bin", set_up_seal},
    {"compose", "build an image from a description of the machine",
     "The contents are lost and I know what is fitted",
     "rtcmend compose --ask --layout at -o new.bin", set_up_compose},
    {"convert", "write the same bytes in another form", "My programmer wants another kind of file",
     "rtcmend convert dump.txt --to intel-hex -o dump.hex", set_up_convert},
    {"compare", "after writing a chip: the differences that matter",
     "I have written the chip and read it back", "rtcmend compare new.bin readback.bin",
     set_up_compare},
    {"deliver", "make what puts an image into the machine: floppy, program, listing",
     "I have a sound image and want it in the machine",
     "rtcmend deliver new.bin --as boot-floppy -o mend.img", set_up_deliver},
    {"capture", "make what reads a chip out of the machine", "I have no dump yet",
     "rtcmend capture --as boot-floppy -o read.img", set_up_capture},
    {"board", "read and write a chip on the bench, and prove that it holds: a common small board",
     "I have the chip in my hand", "rtcmend board wiring", set_up_board},
    {"forecast", "which codes an image would raise at power-on",
     "I want to know what the machine will complain about", "rtcmend forecast dump.bin",
     set_up_forecast},
    {"explain", "what a code at power-on says about the chip",
     "The screen shows numbers such as 161 or 163", "rtcmend explain 161 163", set_up_explain},
    {"sheet", "a printable page: picture of the memory, fields, checks, findings, cautions",
     "I want the machine on paper, for the bench or its folder",
     "rtcmend sheet dump.bin -o sheet.html", set_up_sheet},
    {"page", "the workbench page for a browser, with a dump on it if you name one",
     "I would rather point and click, or send it to a friend", "rtcmend page --open", set_up_page},
    {"layouts", "list, print or check layouts", "I want to see the fields of a layout",
     "rtcmend layouts print at", set_up_layouts},
    {"drives", "the fixed-disk types that fit a disk", "I need a type number for a fixed disk",
     "rtcmend drives --cylinders 615 --heads 4 --sectors 17", set_up_drives},
    {"chips", "the parts of the family, and what replaces what", "I want to know which part to fit",
     "rtcmend chips", set_up_chips},
    {"plan", "how long a cell lasts, and how to get a new one on: cautions first",
     "The cell is dead and I want to mend the part", "rtcmend plan --part DS12887", set_up_plan},
    {"drift", "how fast the clock gains or loses, from two or more readings",
     "The clock runs, and I want to know how well",
     "rtcmend drift dump.bin --at now --log clock.log", set_up_drift},
    {"history", "a machine's dated dumps, and what changed between them",
     "This machine was here before", "rtcmend history machines/fennel", set_up_history},
    {"solve", "find an unknown check from good dumps",
     "I have dumps of a machine whose checks nobody knows", "rtcmend solve one.bin two.bin ...",
     set_up_solve},
    {"trace", "find unknown fields from dumps taken between changes",
     "Nobody documented my machine", "rtcmend trace session.json -o draft.json", set_up_trace},
    {"audit", "judge many dumps: a line each, and a summary", "I have a whole collection of dumps",
     "rtcmend audit collection/", set_up_audit},
    {"completion", "the script that completes rtcmend's words in a shell",
     "I want the Tab key to know fields and layouts", "rtcmend completion bash", set_up_completion},
    {"manual", "this program's manual page", "I want it all on one page",
     "rtcmend manual | man -l -", set_up_manual},
};

}  // namespace

std::span<const Command> commands() {
  return table;
}

const Command& command_named(std::string_view name) {
  std::vector<std::string> names;
  for (const Command& command : table) {
    if (command.name == name) return command;
    names.emplace_back(command.name);
  }
  const auto near = nearest(name, names);
  refuse(std::string(name), "there is no such command",
         near.empty() ? "rtcmend alone lists them" : "rtcmend " + join(near, " or rtcmend "));
}

}  // namespace rtcmend
