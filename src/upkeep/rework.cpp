#include "upkeep/rework.h"

#include <fmt/format.h>
#include <utility>

#include "chip/cautions.h"
#include "layout/parts_catalogue.h"

namespace rtcmend {

namespace {

using Steps = std::vector<WorkStep>;

const WorkStep& save_first() {
  static const WorkStep step{"Save the bytes first",
                             {{"Read the chip while the old cell still holds anything, and keep "
                               "the dump: without power the memory is lost",
                               Act{Act::Kind::capture, {}, {}}},
                              {"Look at it before you go on: what was lost already is to be "
                               "composed anew, and that is better known now",
                               Act{Act::Kind::show, {}, {}}}}};
  return step;
}

/// The last steps are the same for every part that can be given a cell.
Steps with_the_end(Steps steps) {
  steps.push_back(
      {"Give it its bytes",
       {{"Write the image with the oscillator on (010 in bits 6-4 of 0Ah), for a part that stood "
         "without power may have it off; setting the clock sees to that",
         Act{Act::Kind::set_clock, {}, {}}},
        {"Then bring it into the chip by a way that is open, and have what was read back compared",
         Act{Act::Kind::list, "ways", {}}}}});
  steps.push_back(
      {"Prove that it holds",
       {{"Switch off for half an hour, read the chip again, and have it judged",
         Act{Act::Kind::compare_kept, {}, "30m"}},
        {"A week later, see how well it keeps time", Act{Act::Kind::measure_drift, {}, {}}}}});
  return steps;
}

/// One that clears the RAM lies among those that are worked at.
WorkStep mind_ram_clear(int pin) {
  return {fmt::format("Mind pin {}", pin),
          at_bench(fmt::format("Pulled low while the part has no power, pin {} clears the memory: "
                               "keep probe, solder and lead off it, and see that the board leaves "
                               "it open.",
                               pin))};
}

Steps potted_steps(const CellInput& at, bool number_known) {
  Steps steps{save_first()};
  steps.push_back(
      {"Take the part out",
       by_hand(
           "A new part may do instead, without any cutting: the end of this plan has them. "
           "Else note which way round it sits. Lift it a little at either end in turn. The rest is "
           "bench work, beside the machine. A part that is soldered in is unsoldered by "
           "somebody who has done it before.")});
  if (!number_known)
    steps.push_back({"Read the number on it",
                     {{"What follows is for the 24-pin potted parts of the DS1287 kind. Plan again "
                       "with the number, when the catalogue has it: others have other pins",
                       Act{Act::Kind::list, "parts", {}}}}});
  steps.push_back(
      {fmt::format("Find pins {} and {}", at.minus, at.plus),
       at_bench(fmt::format(
           "They are absent outside: both are bent up inside the potting, towards the cell "
           "on top. {} is the cell's minus, {} its plus. Pin 1 is at the mark; pin 13 is opposite "
           "pin 12, and the count goes on from there to 24. Count places, not legs: others may be "
           "absent beside them.",
           at.minus, at.plus))});
  steps.push_back(
      {fmt::format("Open the potting at {} and {}", at.minus, at.plus),
       at_bench(
           "With a fine file, a little at a time, until metal shows at both places. Towards the "
           "pins and no deeper: the crystal is cast in there and the cell lies above. Stop "
           "when metal shows: these two pins are live, and a file across both shorts the "
           "cell.")});
  steps.push_back({"Measure the old cell",
                   at_bench(fmt::format(
                       "Between {} and {}, the meter's plus on {}: should it read minus, these are "
                       "the wrong places; stop and count again. Below {:.1f} V it is spent. Well "
                       "above that the cell is not the fault: cover both openings, stop here and "
                       "look elsewhere first.",
                       at.minus, at.plus, at.plus, at.least_volts))});
  steps.push_back(
      {"Cut the old cell off",
       at_bench(fmt::format(
           "Before a new cell goes on. Part the metal of one pin, then of the other, above the "
           "opening, towards the old cell, so that {} and {} lead to the chip only; never touch "
           "both at once. See a clear gap at both, and no path across either (a meter for "
           "resistance): a dead cell shows no voltage, cut or not. Two cells side by side charge "
           "each other. The ends on the cell's side stay live: cover them. The old cell stays in "
           "the potting; do not dig for it.",
           at.minus, at.plus))});
  steps.push_back({"Solder wires, not the cell",
                   at_bench(fmt::format(
                       "Red to {}, black to {}, thin and short, the iron on no longer than a "
                       "joint takes; fix them to the potting with a drop of glue. They lead to "
                       "a holder, still empty, that sits where no bare metal can touch the board.",
                       at.plus, at.minus))});
  steps.push_back(
      {"Measure before the part goes back",
       by_hand(fmt::format("With the new cell in its holder: its voltage stands at the chip's cell "
                           "pins, plus on {} and minus on {}. Then the part goes in, the right way "
                           "round.",
                           at.plus, at.minus))});
  return with_the_end(std::move(steps));
}

/// A bare part forgets as soon as it leaves its socket.
WorkStep leave_in_socket() {
  return {
      "Leave the part in its socket",
      "Its cell stands on the board: out of the socket the part forgets everything at once, and "
      "bytes that a programmer puts into it are lost on the way back. Read it and write it in "
      "its machine."};
}

WorkStep take_out() {
  return {"Take the old cell out and clean",
          by_hand("Mark its plus on the board first, and draw where each lead goes. One that is "
                  "soldered in is not heated: cut its leads or lugs, one at a time, never both in "
                  "one bite, lift it away, and only then unsolder the ends. Where it leaked, "
                  "neutralise, clean, and follow each eaten trace with the meter.")};
}

WorkStep put_in() {
  return {"Fit a holder, then the cell",
          by_hand("Its plus where the old one had it; a holder rather than a soldered cell.")};
}

/// How to settle, with everything switched off, whether the board charges its cell.
WorkStep find_charger(const CellInput& at, bool rechargeable) {
  const std::string how = fmt::format(
      "Follow the trace from the holder's plus, no cell in it. +5 V is a red lead of the board's "
      "own power plug, never inside the supply. A meter for resistance, red there and black at the "
      "holder's plus: a low reading, or one like a diode's, is a charger, a resistor or a diode "
      "from +5 V to the cell. The diode that lets the cell feed pin {} leads the other way and is "
      "none. ",
      at.plus);
  return {"See whether the board charges",
          by_hand(how + (rechargeable
                             ? "This pack must be charged: leave the charger in. Where there is "
                               "none, plan again with a cell that is not rechargeable."
                             : "Before a lithium or alkaline cell goes in, take that resistor or "
                               "diode out of the circuit; while it is not certain, fit none."))};
}

/// A rechargeable pack comes empty (from memory).
Steps until_it_is_charged(bool rechargeable) {
  if (!rechargeable) return {};
  return {{"Let the machine charge it",
           "A new pack comes empty: let the machine run for a day. Until then less voltage at the "
           "pins, and lost bytes, are no fault."}};
}

Steps outside_steps(const CellInput& at, bool rechargeable) {
  Steps steps{save_first(), leave_in_socket()};
  steps.push_back(
      {"Find the cell and what lies between",
       by_hand(fmt::format("Follow the cell's plus to pin {}. The part switches over by "
                           "itself, so that nothing need stand between; a diode there "
                           "takes away volts that it needs near the end.",
                           at.plus))});
  steps.push_back(take_out());
  steps.push_back(find_charger(at, rechargeable));
  steps.push_back(put_in());
  steps.push_back({"Measure before it gets power",
                   by_hand(fmt::format("The new cell's voltage stands at pin {}, minus on {}.",
                                       at.plus, at.minus))});
  return with_the_end(std::move(steps));
}

Steps supply_steps(const CellInput& at, bool rechargeable) {
  Steps steps{save_first(), leave_in_socket()};
  steps.push_back(
      {"Find the cell and what lies between",
       by_hand(fmt::format(
           "This part has no input for a cell: pin {} is its only supply, +5 V from the machine "
           "and, through a diode and a resistor of the board, the cell or pack. Follow the pack's "
           "plus through both to pin {}; its minus is ground, pin {}. No cell at any other pin: "
           "some of them are tied to +5 V, which would charge it.",
           at.plus, at.plus, at.minus))});
  steps.push_back(take_out());
  steps.push_back(find_charger(at, rechargeable));
  if (!rechargeable)
    steps.push_back(
        {"See that two things guard the cell",
         by_hand(fmt::format(
             "A diode keeps +5 V from the cell, a resistor limits what a failed diode would let "
             "through (about 1 kOhm: common practice, no source). Where one is missing, put it in "
             "before the cell goes on: in line from the cell's plus the resistor, then a diode for "
             "small signals, its band towards pin {}. The other way round it would charge the "
             "cell.",
             at.plus))});
  steps.push_back(put_in());
  for (WorkStep& step : until_it_is_charged(rechargeable)) steps.push_back(std::move(step));
  steps.push_back({rechargeable ? "Measure when it has run" : "Measure before it gets power",
                   by_hand(fmt::format(
                       "Pin {} against pin {} shows the cell's voltage less what the diode takes, "
                       "at least {:.1f} V.",
                       at.plus, at.minus, at.least_volts))});
  return with_the_end(std::move(steps));
}

Steps never_steps() {
  return {
      save_first(),
      {"Fit no plain cell",
       by_hand("This part charges its cell. A lithium coin cell on it may burst: leave a cell of "
               "its own in place, give it a rechargeable one only as its data sheet says, or fit "
               "another part.")}};
}

Steps unknown_steps(const Part& part) {
  return {save_first(),
          {"Do no work on its cell by guess",
           by_hand(fmt::format("Which pins feed the {}, and with how much, is not known here. Look "
                               "it up in its data sheet, or fit another part.",
                               part.name))}};
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
  if (!part->cell_input) return Rework::unknown;
  if (part->package != Package::bare) return Rework::potted;
  return part->cell_input->between == Between::nothing ? Rework::outside : Rework::supply;
}

bool has_cell_work(Rework rework) {
  return rework != Rework::never && rework != Rework::unknown;
}

std::vector<WorkStep> rework_steps(const std::optional<Part>& part, bool rechargeable) {
  Steps steps;
  switch (rework_of(part)) {
    case Rework::potted:
      steps = potted_steps(part ? *part->cell_input : usual_cell_input(), part.has_value());
      break;
    case Rework::outside:
      steps = outside_steps(*part->cell_input, rechargeable);
      break;
    case Rework::supply:
      steps = supply_steps(*part->cell_input, rechargeable);
      break;
    case Rework::unknown:
      return unknown_steps(*part);
    case Rework::never:
      return never_steps();
  }
  if (part && part->ram_clear_pin)
    steps.insert(steps.begin() + 2, mind_ram_clear(*part->ram_clear_pin));
  return steps;
}

std::string rework_source(const std::optional<Part>& part) {
  if (!has_cell_work(rework_of(part))) return part->source;
  return "common practice, no source; pins and volts: " +
         (part ? *part->cell_input : usual_cell_input()).source;
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
