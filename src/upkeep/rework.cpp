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
                               Act{Act::Kind::capture, {}, {}}}}};
  return step;
}

/// The last steps are the same for every part that can be given a cell.
Steps with_the_end(Steps steps) {
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

Steps potted_steps(const CellInput& at, bool number_known) {
  Steps steps{save_first()};
  steps.push_back(
      {"Take the part out",
       by_hand("Note which way round it sits. Lift it a little at either end in turn. The rest is "
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
           "on top. {} is the cell's minus, {} its plus. Pin 13 is opposite pin 12, and "
           "the count goes on from there to 24.",
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
                       "Between {} and {}. Below {:.1f} V it is spent; write the value down: it "
                       "tells later whether the cell was the fault at all.",
                       at.minus, at.plus, at.least_volts))});
  steps.push_back({"Cut the old cell out",
                   at_bench(fmt::format(
                       "Before a new cell goes on. Part the metal of one pin, then of the other, "
                       "above the opening, towards the old cell, so that {} and {} lead to the "
                       "chip only; never touch both at once. Measure again: the stumps must "
                       "show no voltage. Two cells side by side charge each other.",
                       at.minus, at.plus))});
  steps.push_back({"Solder wires, not the cell",
                   at_bench(fmt::format(
                       "Red to {}, black to {}, thin and short, the iron on no longer than a "
                       "joint takes; fix them to the potting with a drop of glue. They lead to "
                       "a holder, or to a cell with tabs. No cell in it yet.",
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

/// How to settle, with everything switched off, whether the board charges its cell.
WorkStep find_charger(const CellInput& at) {
  return {"See whether the board charges",
          by_hand(fmt::format(
              "Follow the trace from the holder's plus, with the cell out; a meter for resistance "
              "between there and the machine's +5 V, both ways round, confirms it. The diode that "
              "lets the cell feed pin {} is no charger; a resistor, or a diode the other way, from "
              "+5 V to the cell's plus is one, and made for a rechargeable cell. Before a lithium "
              "or alkaline cell goes in, take that resistor or diode out of the circuit.",
              at.plus))};
}

WorkStep clean_and_change() {
  return {
      "Clean, then change the cell",
      by_hand("Take the old cell out. Where it leaked, neutralise and clean the board first. Fit "
              "a holder rather than a soldered cell.")};
}

Steps outside_steps(const CellInput& at) {
  Steps steps{save_first(), leave_in_socket()};
  steps.push_back(
      {"Find the cell and what lies between",
       by_hand(fmt::format("Follow the cell's plus to pin {}. The part switches over by "
                           "itself, so that nothing need stand between; a diode there "
                           "takes away volts that it needs near the end.",
                           at.plus))});
  steps.push_back(find_charger(at));
  steps.push_back(clean_and_change());
  steps.push_back(
      {"Measure before it gets power",
       by_hand(fmt::format("With the new cell in: its voltage stands at pin {}, minus on {}, and "
                           "there is no path from {} to pin 24 (+5 V).",
                           at.plus, at.minus, at.plus))});
  return with_the_end(std::move(steps));
}

Steps supply_steps(const CellInput& at) {
  Steps steps{save_first(), leave_in_socket()};
  steps.push_back(
      {"Find the cell and what lies between",
       by_hand(fmt::format(
           "This part has no input for a cell: pin {} is its only supply, +5 V from the machine "
           "and, through a diode and a resistor of the board, the cell or pack. Follow the pack's "
           "plus through both to pin {}; its minus is ground, pin {}. No cell at any other pin: "
           "some of them are tied to +5 V, which would charge it.",
           at.plus, at.plus, at.minus))});
  steps.push_back(find_charger(at));
  steps.push_back(
      {"See that two things guard the cell",
       by_hand("A diode keeps +5 V from the cell, a resistor limits what a failed diode would let "
               "through (about 1 kOhm: common practice, no source). Where one of them is missing, "
               "put it in before a lithium or alkaline cell goes on. A nickel pack on the board's "
               "own charger stays a nickel pack of the same volts.")});
  steps.push_back(clean_and_change());
  steps.push_back({"Measure before it gets power",
                   by_hand(fmt::format(
                       "With the new pack in: pin {} against pin {} shows its voltage less what "
                       "the diode takes, at least {:.1f} V.",
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

std::vector<WorkStep> rework_steps(const std::optional<Part>& part) {
  switch (rework_of(part)) {
    case Rework::potted:
      return potted_steps(part ? *part->cell_input : usual_cell_input(), part.has_value());
    case Rework::outside:
      return outside_steps(*part->cell_input);
    case Rework::supply:
      return supply_steps(*part->cell_input);
    case Rework::unknown:
      return unknown_steps(*part);
    case Rework::never:
      break;
  }
  return never_steps();
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
