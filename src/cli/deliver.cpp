#include <algorithm>
#include <fmt/format.h>
#include <iostream>

#include "base/error.h"
#include "base/files.h"
#include "base/system.h"
#include "base/text.h"
#include "cli/commands.h"
#include "cli/dump_source.h"
#include "cli/part_option.h"
#include "cli/print.h"
#include "cli/typing_sheet.h"
#include "cli/way_choice.h"
#include "deliver/parcel.h"
#include "desk/ready.h"
#include "judge/part_findings.h"
#include "render/delivery_json.h"
#include "terminal/advice.h"
#include "terminal/columns.h"
#include "terminal/delivery.h"
#include "terminal/heading.h"

namespace rtcmend {

namespace {

struct DeliverOptions {
  DumpSource source;
  std::string way;
  std::string output;
  std::string disk;
  std::string clock = "keep";
  std::string part, have;
  bool list = false;
  bool force = false;
  bool when_lost = false;
  bool codes = false;
  bool all_bytes = false;
  bool unsound_anyway = false;
  Voice voice;
};

DiskFormat disk_of(const DeliverOptions& given) {
  return given.disk.empty() ? DiskFormat::m1_44 : disk_format_named(given.disk);
}

Parcel parcel_from(const DeliverOptions& given, const Opened& opened) {
  Parcel parcel = parcel_of(opened.dump.image, *opened.layout,
                            given.all_bytes ? Delivered::all : Delivered::used);
  parcel.clock = clock_policy_named(given.clock);
  parcel.disk = disk_of(given);
  if (!given.part.empty()) parcel.running_dividers = part_given(given.part).running_dividers;
  parcel.occasion = given.when_lost ? Occasion::when_lost : Occasion::once;
  parcel.codes = given.codes;
  return parcel;
}

/// The delivery writes the image's own time only when it is told to.
Readiness ready_for(const DeliverOptions& given, const Opened& opened) {
  Leaving leaving;
  leaving.writes_clock = clock_policy_named(given.clock) == ClockPolicy::image;
  Readiness ready = readiness(opened.dump.image, *opened.layout, opened.reading, leaving);
  if (!given.unsound_anyway) need_ready(ready, opened.name);
  return ready;
}

/// What the named part changes: told, and no obstacle.
std::string part_text(const DeliverOptions& given, const Opened& opened) {
  if (given.part.empty()) return {};
  const Part& part = part_given(given.part);
  std::string text = fmt::format("\nFor the {}\n", part.name);
  for (const Finding& finding : part_findings(opened.dump.image, *opened.layout, part))
    text += "  -  " + hanging(finding.text + " " + advice_text(finding.advice), 5) + "\n";
  return text;
}

std::vector<std::string> faults_of(const Readiness& ready) {
  std::vector<std::string> faults;
  for (const Finding& finding : ready.obstacles)
    faults.push_back(fmt::format("{}: {}", finding.id(), finding.text));
  return faults;
}

/// A delivery with the image that it carries.
struct Made {
  const Opened& opened;
  const Readiness& ready;
  Way way;
  const Delivery& delivery;
};

void tell(const DeliverOptions& given, const Made& made) {
  const Layout& layout = *made.opened.layout;
  std::string what = fmt::format("{} for {}", name(made.way), layout.id);
  if (made.way == Way::boot_floppy)
    what = fmt::format("{} ({}) for {}", name(made.way), name(disk_of(given)), layout.id);
  const Carried carried{given.output, what, made.way, made.delivery};
  const bool aside = given.output == "-";
  std::string text;
  if (given.voice.json) {
    Json json = carried_json(carried);
    add_layout(&layout, json);
    json["sound"] = made.ready.examination.sound;
    json["code"] = made.delivery.code;
    json["left_alone"] = made.delivery.left_alone;
    json["faults"] = faults_of(made.ready);
    text = to_line(json) + "\n";
  } else {
    text = layout_mark(layout) + written_bytes_text(made.delivery) +
           carried_text(carried, aside ? Ink() : given.voice.ink()) + part_text(given, made.opened);
    for (const std::string& fault : faults_of(made.ready))
      text += "Not sound: " + printable(fault) + "\n";
  }
  if (aside)
    print_aside(text);
  else
    print(text);
}

int list_ways(const Voice& voice) {
  const auto figures = way_figures();
  if (voice.json)
    print_json(ways_json(figures));
  else
    print(ways_text(figures));
  return exit_good;
}

/// Without a way: which ones are open, by what was told or by asking.
int choose_way(const DeliverOptions& given) {
  if (given.have.empty() && !system::output_is_terminal())
    refuse(
        "--as", "it is needed, and was not given",
        "--have floppy,dos,writable,debugger,basic,serial,chip-out (what there is) says which ways "
        "are open; --list has all");
  const std::string dump = given.source.path.empty() ? "DUMP" : given.source.path;
  Means means = given.have.empty() ? ask_what_is_open(std::cin, std::cout)
                                   : Means{haves_named(given.have), {}};
  if (!given.disk.empty()) means.disk = disk_of(given);
  if (given.voice.json)
    print_json(openings_json(openings(means.have)));
  else
    print(openings_text(means, dump));
  return exit_good;
}

int deliver_dump(const DeliverOptions& given) {
  if (given.list) return list_ways(given.voice);
  if (given.way == "list") refuse("--as", "list is no way", "--list shows the ways");
  if (given.way.empty()) return choose_way(given);
  check_part(given.part);
  const Way way = way_named(given.way);
  if (given.source.path.empty()) refuse("DUMP", "it is needed, and was not given", "a dump's name");
  if (given.output.empty()) refuse("-o", "it is needed, and was not given", "-o mend.img");
  WriteRules rules{given.force, inputs_of(given.source)};
  check_output(given.output, rules);
  const Opened opened = open_dump(given.source);
  rules.inputs.add(opened.layout->files);
  const Readiness ready = ready_for(given, opened);
  const Delivery delivery = deliver(parcel_from(given, opened), way);
  write_whole(given.output, file_of(delivery, given.output), rules);
  tell(given, {opened, ready, way, delivery});
  return ready.is_ready() ? exit_good : exit_bad;
}

}  // namespace

Action set_up_deliver(Options& options) {
  auto given = std::make_shared<DeliverOptions>();
  options.optional_word(given->source.path, "DUMP", "the dump; - is standard input");
  add_reading(options, given->source);
  add_again(options, given->source);
  add_part(options, given->part);
  options.value(given->way, "--as", "WAY",
                "boot-floppy, dos-program, debugger-script, basic-listing or keyboard-program");
  options.flag(given->list, "--list", "the ways, how large they are and how much there is to type");
  options.value(
      given->have, "--have", "WHAT",
      "what still works there: floppy, dos, writable (a disk that takes a file), debugger, "
      "basic, serial, chip-out, with commas; says which ways are open. On a terminal deliver "
      "asks");
  options.value(given->output, "-o,--output", "OUT", "where to write; - is standard output");
  options.flag(given->force, "--force", "replace OUT when it exists");
  options.value(given->disk, "--disk", "FORMAT",
                "the floppy: 360K, 720K, 1.2M or 1.44M, which is taken when nothing is said");
  options.value(given->clock, "--clock", "POLICY",
                "keep: a sound running clock stays, else the program asks where it can; image: the "
                "dump's time is written; ask: the program asks");
  options.flag(given->all_bytes, "--all-bytes",
               "write what the layout does not use as well: the upper half of a larger chip");
  options.flag(given->when_lost, "--when-lost",
               "for a chip that forgets: look first, restore only what is lost, restart warm");
  options.flag(given->codes, "--code",
               "the floppy and the DOS program can show what they read back as a QR code for a "
               "phone");
  options.flag(given->unsound_anyway, "--unsound-anyway",
               "make it even when the image is not sound, and say what is wrong");
  add_voice(options, given->voice);
  options.example("rtcmend deliver new.bin --as boot-floppy --disk 720K -o mend.img");
  options.example("rtcmend deliver new.bin --as keyboard-program -o mend.txt");
  options.example("rtcmend deliver new.bin --have dos,writable");
  options.example("rtcmend deliver --list");
  return [given] { return deliver_dump(*given); };
}

}  // namespace rtcmend
