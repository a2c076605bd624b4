#include "upkeep/cautions.h"

namespace rtcmend {

const std::vector<Caution>& bench_cautions() {
  static const std::vector<Caution> cautions = {
      {"Lithium cell",
       "Never charge it, short it or heat it, and never solder to the cell itself: use one with "
       "tabs, or a holder. Keep it from the 5 V rail."},
      {"Children",
       "Keep coin cells out of their reach. Swallowing one is a medical emergency: call for help "
       "at once, do not wait for signs."},
      {"Mains and monitors",
       "Unplug the machine and take the chip out of it. Power supplies and monitors hold dangerous "
       "voltages after they are unplugged: opening one is work for a qualified person."},
      {"Dust and fumes",
       "Potting dust and solder fume: eye protection and extraction. After leaded solder, wash "
       "your hands."},
      {"Leaks",
       "Leaking cells and capacitors: gloves. Neutralise and clean the board before it gets power "
       "again."},
      {"Static", "Wear a wrist strap; put the chip into conductive foam, not on the bench."},
  };
  return cautions;
}

std::string_view cautions_limit() {
  return "Follow the local rules for electrical work and for getting rid of cells; these notes do "
         "not replace them.";
}

}  // namespace rtcmend
