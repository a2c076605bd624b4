#include <fmt/format.h>

#include "base/error.h"
#include "base/files.h"
#include "cli/commands.h"
#include "cli/part_option.h"
#include "cli/print.h"
#include "cli/typing_sheet.h"
#include "deliver/delivery.h"
#include "render/delivery_json.h"
#include "terminal/delivery.h"

namespace rtcmend {

namespace {

struct CaptureOptions {
  std::string way;
  std::string output;
  std::string disk = "1.44M";
  int size = 0;
  std::string part;
  bool force = false;
  Voice voice;
};

CaptureOrder order_from(const CaptureOptions& given) {
  CaptureOrder order;
  order.disk = disk_format_named(given.disk);
  if (given.size == 0) {
    if (!given.part.empty()) order.size = part_given(given.part).size;
    return order;
  }
  if (given.size != 64 && given.size != 128)
    refuse("--size", "a clock chip has 64 or 128 bytes", "--size 64");
  order.size = static_cast<std::size_t>(given.size);
  return order;
}

int make_capture(const CaptureOptions& given) {
  const Way way = way_named(given.way);
  if (given.output.empty()) refuse("-o", "it is needed, and was not given", "-o read.img");
  const WriteRules rules{given.force, {}};
  check_output(given.output, rules);
  const Delivery delivery = capture(order_from(given), way);
  write_whole(given.output, file_of(delivery, given.output), rules);
  const Carried carried{given.output, fmt::format("{} that reads a clock chip", name(way)), way,
                        delivery};
  const bool aside = given.output == "-";
  const std::string text = given.voice.json
                               ? to_line(carried_json(carried)) + "\n"
                               : carried_text(carried, aside ? Ink() : given.voice.ink());
  if (aside)
    print_aside(text);
  else
    print(text);
  return exit_good;
}

}  // namespace

Action set_up_capture(Options& options) {
  auto given = std::make_shared<CaptureOptions>();
  options.value(given->way, "--as", "WAY",
                "boot-floppy, dos-program, debugger-script, basic-listing or keyboard-program");
  options.value(given->output, "-o,--output", "OUT", "where to write; - is standard output");
  options.flag(given->force, "--force", "replace OUT when it exists");
  options.value(given->disk, "--disk", "FORMAT", "the floppy: 360K, 720K, 1.2M or 1.44M");
  options.value(given->size, "--size", "BYTES",
                "64 or 128; when left out, a chip whose halves are alike counts as 64");
  add_part(options, given->part);
  add_voice(options, given->voice);
  options.example("rtcmend capture --as boot-floppy --disk 360K -o read.img");
  options.example("rtcmend capture --as debugger-script -o read.scr");
  return [given] { return make_capture(*given); };
}

}  // namespace rtcmend
