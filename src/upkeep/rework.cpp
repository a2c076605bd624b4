#include "upkeep/rework.h"

#include "layout/parts_catalogue.h"

namespace rtcmend {

namespace {

const WorkStep& save_first() {
  static const WorkStep step{"Save the bytes first",
                             {{"Read the chip while the old cell still holds anything, and keep "
                               "the dump: without power the "
                               "memory is lost",
                               Act{Act::Kind::capture, {}, {}}}}};
  return step;
}

/// The last steps are the same for every part.
std::vector<WorkStep> with_the_end(std::vector<WorkStep> steps) {
  steps.push_back({"Measure before the chip goes back",
                   "With the new cell in: its voltage stands at the chip's cell pins, plus on 20 "
                   "and minus on 16, and nothing is shorted to pin 12 (ground) or 24 (+5 V)."});
  steps.push_back(
      {"Give it its bytes",
       {{"Write the image with the oscillator on (010 in bits 6-4 of 0Ah), for a part that stood "
         "without power may have it off; setting the clock sees to that",
         Act{Act::Kind::set_clock, {}, {}}}}});
  steps.push_back(
      {"Prove that it holds",
       {{"Switch off for half an hour, read the chip again, and have it judged",
         Act{Act::Kind::compare_kept, {}, "30m"}},
        {"A week later, see how well it keeps time", Act{Act::Kind::measure_drift, {}, {}}}}});
  return steps;
}

std::vector<WorkStep> potted_steps() {
  return with_the_end({
      save_first(),
      {"Find pins 16 and 20",
       "They are absent outside: both are bent up inside the potting, towards the cell on top. 16 "
       "is the cell's minus, 20 its plus. Pin 13 is opposite pin 12, and the count goes on from "
       "there to 24."},
      {"Open the potting at 16 and 20",
       "With a fine file or a small grinder, a little at a time, until metal shows at both places. "
       "No deeper: the crystal is cast in as well."},
      {"Measure the old cell",
       "Between 16 and 20. Below 2.5 V it is spent; write the value down: it tells later whether "
       "the cell was the fault at all."},
      {"Cut the old cell out",
       "Before a new cell goes on. Part the metal above both openings, towards the old cell, so "
       "that 16 and 20 lead to the chip only. Measure again: the stumps must show no voltage. Two "
       "cells side by side charge each other."},
      {"Solder wires, not the cell",
       "Red to 20, black to 16, thin and short; fix them to the potting with a drop of glue. They "
       "lead to a holder, or to a cell with tabs. No cell in it yet."},
  });
}

std::vector<WorkStep> outside_steps() {
  return with_the_end({
      save_first(),
      {"Find the cell and what lies between",
       "The cell stands outside the chip. Follow its plus to pin 20: on the way stands perhaps a "
       "diode or a resistor. A part with its own switch-over needs no diode; a bare RAM does, so "
       "that 5 V never reach the cell."},
      {"See whether the board charges",
       "With the cell out and the machine on, measure at the holder. Anything that would drive a "
       "current into the cell is a charger, made for a rechargeable one: take its resistor or "
       "diode "
       "out of the circuit before a lithium coin cell goes in."},
      {"Clean, then change the cell",
       "Take the old cell out. Where it leaked, neutralise and clean the board first. Fit a holder "
       "rather than a soldered cell."},
  });
}

std::vector<WorkStep> never_steps() {
  return {save_first(),
          {"Fit no plain cell",
           "This part charges its cell. A lithium coin cell on it may burst: leave its own cell in "
           "place, or fit another part."}};
}

std::vector<std::string> image_changes(const Part& old_part, const Part& new_part) {
  std::vector<std::string> changes;
  if (new_part.ships_stopped)
    changes.emplace_back(
        "0Ah must turn the oscillator on, which a new part has off: 26h, as setting the clock "
        "writes "
        "it.");
  if (new_part.size > old_part.size)
    changes.emplace_back(
        "The old image of 64 bytes still fits; 40h-7Fh are not used, unless the firmware looks for "
        "a mirror there.");
  if (new_part.keeps_century && !old_part.keeps_century)
    changes.emplace_back(
        "32h belongs to the part: it holds the century in BCD. A layout that keeps a check there "
        "does not go with it.");
  if (changes.empty()) changes.emplace_back("Nothing: the same bytes go in.");
  return changes;
}

}  // namespace

Rework rework_of(const std::optional<Part>& part) {
  if (!part) return Rework::potted;
  if (part->trickle_charger) return Rework::never;
  return part->package == Package::bare ? Rework::outside : Rework::potted;
}

std::vector<WorkStep> rework_steps(const std::optional<Part>& part) {
  switch (rework_of(part)) {
    case Rework::potted:
      return potted_steps();
    case Rework::outside:
      return outside_steps();
    case Rework::never:
      break;
  }
  return never_steps();
}

std::string rework_source(const std::optional<Part>& part) {
  if (rework_of(part) == Rework::never) return part->source;
  return "common practice, no source; pins 16 and 20 from memory";
}

std::vector<Alternative> alternatives(const std::optional<Part>& part) {
  std::vector<Alternative> found;
  if (!part) return found;
  for (const Successor& other : successors(*part))
    found.push_back({other.part->name, other.how->changes, image_changes(*part, *other.part),
                     other.how->source});
  return found;
}

}  // namespace rtcmend
