#include "cli/finding_out.h"

#include <array>

namespace rtcmend {

namespace {

struct Hint {
  std::string_view id;  ///< how the ids of such fields begin
  std::string_view how;
};

// Common practice, no published source.
constexpr std::array<Hint, 7> hints{{
    {"floppy_",
     "See the drive: a wide slot is 360K or 1.2M (the later ones are 1.2M), a narrow one 720K, "
     "1.44M "
     "or, seldom, 2.88M. A paper or a stamp on it has its type; drives of 1993 and later are 1.44M "
     "as good as always."},
    {"disk_",
     "The label of the disk has cylinders, heads and sectors: \"rtcmend drives --cylinders N "
     "--heads N "
     "--sectors N\" finds the type by them. No disk, or one with a controller that brings its own "
     "firmware: 0."},
    {"base_memory",
     "What the firmware counts up to at power-on, up to 640. 640 unless the machine has less than "
     "1 MiB fitted."},
    {"extended_memory",
     "What is counted at power-on beyond the first MiB: 3072 for 4 MiB in all, 0 for 1 MiB or "
     "less."},
    {"display",
     "By the card's plug: 15 holes in three rows are an adapter with its own firmware; 9 holes may "
     "be "
     "any of them, and the monitor that belongs to it tells. A wrong monitor can be harmed: where "
     "it "
     "is not certain, ask someone who knows it."},
    {"coprocessor",
     "Beside the processor stands a second large chip, an 80287, 80387 or one of another maker for "
     "that socket; a 486DX or later has it inside."},
    {"keyboard", "Yes, unless the machine is to start without one."},
}};

}  // namespace

std::string_view how_to_find_out(const Field& field) {
  for (const Hint& hint : hints)
    if (std::string_view(field.id).starts_with(hint.id)) return hint.how;
  return {};
}

}  // namespace rtcmend
