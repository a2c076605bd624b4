#include "make/drives.h"

#include <limits>

#include "base/error.h"
#include "cli/commands.h"
#include "cli/layout_file.h"
#include "cli/print.h"
#include "render/drives_json.h"
#include "terminal/drives.h"
#include "terminal/heading.h"

namespace rtcmend {

namespace {

constexpr int not_given = std::numeric_limits<int>::min();
constexpr std::size_t usually_shown = 12;

struct DrivesOptions {
  int cylinders = not_given, heads = not_given, sectors = not_given;
  int type = not_given;
  std::string capacity, layout;
  bool all = false;
  Voice voice;
};

Disk disk_in(const DrivesOptions& given, const Layout* layout) {
  if (given.type != not_given) {
    const DriveType type = drive_type_numbered(given.type, layout);
    return disk_of({type.cylinders, type.heads, type.sectors});
  }
  const int numbers =
      (given.cylinders != not_given) + (given.heads != not_given) + (given.sectors != not_given);
  if (numbers > 0 && !given.capacity.empty())
    refuse("--capacity", "cylinders, heads and sectors give the capacity already",
           "leave --capacity out");
  if (numbers == 3) return disk_of({given.cylinders, given.heads, given.sectors});
  if (numbers > 0)
    refuse("drives", "--cylinders, --heads and --sectors go together",
           "give all three, or --capacity alone");
  if (given.capacity.empty())
    refuse("drives", "it needs a disk",
           "--cylinders 615 --heads 4 --sectors 17, --capacity 20M, or --type 2");
  return disk_of_capacity(parse_capacity(given.capacity));
}

bool fits_somehow(const DriveAdvice& advice) {
  if (!advice.matches.empty()) return true;
  for (const ByHand& block : advice.by_hand)
    if (block.problem.empty()) return true;
  return false;
}

int drives(const DrivesOptions& given) {
  std::optional<Layout> layout;
  if (!given.layout.empty()) layout = layout_named(given.layout);
  const Layout* asked = layout ? &*layout : nullptr;
  const Disk disk = disk_in(given, asked);
  DriveAdvice advice = advise_on_drive(disk, asked);
  if (given.type != not_given) {
    std::erase_if(advice.matches,
                  [&](const DriveMatch& match) { return match.type.type != given.type; });
    advice.by_hand.clear();
  }
  const DriveCard card{disk, advice, asked};
  if (given.voice.json)
    print_json(drives_json(card));
  else
    print(layout_mark(layout) +
          drives_text(card, given.all ? advice.matches.size() : usually_shown, given.voice.ink()));
  return fits_somehow(advice) ? exit_good : exit_bad;
}

}  // namespace

Action set_up_drives(Options& options) {
  auto given = std::make_shared<DrivesOptions>();
  options.value(given->cylinders, "--cylinders", "N", "cylinders of the disk");
  options.value(given->heads, "--heads", "N", "heads of the disk");
  options.value(given->sectors, "--sectors", "N", "sectors a track, of 512 bytes");
  options.value(given->capacity, "--capacity", "SIZE",
                "its capacity instead: 40M is 40,000,000 bytes, as disks are sold; 40MiB is "
                "41,943,040");
  options.value(given->type, "--type", "N", "what the type with this number is");
  options.value(given->layout, "--layout", "ID|FILE",
                "use this layout's own table and its places for disks entered by hand, where it "
                "has them; else the common table");
  options.flag(given->all, "--all", "show every type that fits, not the best twelve");
  add_voice(options, given->voice);
  options.example("rtcmend drives --cylinders 615 --heads 4 --sectors 17");
  options.example("rtcmend drives --capacity 40M --layout at+disks-1b");
  options.example("rtcmend drives --type 39 --layout crc");
  return [given] { return drives(*given); };
}

}  // namespace rtcmend
