#include "chip/cautions.h"

#include <utility>

namespace rtcmend {

const std::vector<Caution>& bench_cautions() {
  // What a potted part stands of heat: DS12885, note 1. Vinegar on a leak: common practice. The
  // others: common practice, no source.
  static const std::vector<Caution> cautions = {
      {"Switch off first",
       "Switch off AND unplug before a hand goes in, and again before each measurement or step "
       "that "
       "needs one inside; then wait some minutes. Measure nothing inside a running machine: that "
       "is "
       "work for a qualified person."},
      {"Lithium cell",
       "Never charge it, short it, heat it, crush it, cut it, drill it or grind into it, and never "
       "solder to the cell itself: take one with tabs, or a holder. Nothing may connect it to the "
       "+5 V rail. Old ones: tape over both poles, one by one, and to a collection point."},
      {"Potted parts",
       "The tool works right beside a cell: a little at a time, and only where a pin is looked "
       "for. "
       "The cell's pins are live with the machine unplugged: nothing may bridge them, no file, no "
       "tweezers, no lead. Keep the whole part below 85 C, and the iron on a pin no longer than a "
       "joint takes."},
      {"Children",
       "Keep coin cells out of their reach. Swallowing one is a medical emergency: call for help "
       "at once, do not wait for signs."},
      {"Mains and monitors",
       "Power supplies and monitors hold dangerous voltages after they are unplugged: opening one "
       "is work for a qualified person. Where their insides lie open beside the board, so is all "
       "work in the machine. Machine tools and plant are a qualified person's work throughout."},
      {"Dust and fumes",
       "Potting dust and solder fume: eye protection and extraction. After leaded solder, wash "
       "your hands."},
      {"Leaks",
       "Leaking cells and capacitors: gloves and eye protection. What leaks from NiCd, NiMH and "
       "alkaline cells is itself alkaline: a weak acid such as vinegar on a brush, then water, "
       "then "
       "dry. After electrolytic capacitors rinse with water and dry. Only then power."},
      {"Static",
       "Wear a wrist strap, at an unplugged machine only. A part with a live cell on its pins goes "
       "into an antistatic bag or tray: conductive foam would drain the cell, and is for parts "
       "without one."},
  };
  return cautions;
}

std::string_view cautions_limit() {
  return "Follow the local rules for electrical work and for getting rid of cells; these notes do "
         "not replace them.";
}

std::string_view hands_line() {
  return "First switch off, unplug and wait some minutes; mind the cautions";
}

bool points_to_cautions(const Advice& advice) {
  return !advice.empty() && advice.steps().front().act &&
         advice.steps().front().act->kind == Act::Kind::cautions;
}

namespace {

Advice behind(std::string_view line, Advice advice) {
  if (advice.empty() || points_to_cautions(advice)) return advice;
  Advice careful{{std::string(line), Act{Act::Kind::cautions, {}, {}}}};
  for (const AdviceStep& step : advice.steps()) careful.add(step);
  return careful;
}

}  // namespace

Advice by_hand(Advice advice) {
  return behind(hands_line(), std::move(advice));
}

Advice at_bench(Advice advice) {
  return behind("On the bench; mind the cautions", std::move(advice));
}

}  // namespace rtcmend
