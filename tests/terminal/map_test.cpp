#include "terminal/map.h"

#include <catch2/catch.hpp>

#include "render/small_layout.h"

using namespace rtcmend;
using namespace rtcmend::test;

TEST_CASE("the map shows every byte, what it belongs to, and which check covers it") {
  const Shown shown(without(at_64_image(), {0x00, 0x01}));
  const std::string text = map_text(shown.card(), Ink());
  CHECK(text.substr(text.find("\n\n") + 2) ==
        R"(      x0 x1 x2 x3 x4 x5 x6 x7  x8 x9 xA xB xC xD xE xF
  00  ?? ?? 30 00 09 00 04 14  05 31 26 02 00 80 00 00
      T  L  T  L  T  L  T  T   T  T  R  R  R  R  a  .
  10  40 00 F0 00 0D 80 02 80  01 27 00 00 00 00 00 00
      b1 .1 c1 .1 .1 d1 d1 .1  .1 c1 .1 .1 .1 .1 .1 .1
  20  00 00 00 00 00 00 00 00  00 00 00 00 00 00 02 67
      .1 .1 .1 .1 .1 .1 .1 .1  .1 .1 .1 .1 .1 .1 e  e
  30  80 01 20 00 00 00 00 00  ** ** ** ** ** ** ** **
      .  .  f  .  .  .  .  .   g  g  g  g  g  g  g  g

  T  00 02 04 06-09 time and date
  L  01 03 05 alarm
  R  0A-0D    registers A to D
  a  0E       What the self-test found at the last start
  b  10       First floppy drive
  c  12 19    First fixed disk, type
  d  15-16    Base memory
  e  2E-2F    stored check sum-10-2d
  f  32       Century
  g  38-3F    Password
  .           nobody's: the layout gives it no meaning
  1           covered by check sum-10-2d
  ??          unknown: the dump does not hold it
  **          a password's: never shown
)");
}

TEST_CASE("with colour the map only gains colour") {
  const Shown shown(at_64_image());
  const std::string plain = map_text(shown.card(), Ink(false));
  std::string stripped;
  const std::string coloured = map_text(shown.card(), Ink(true));
  for (std::size_t i = 0; i < coloured.size(); ++i) {
    if (coloured[i] == '\x1b')
      i = coloured.find('m', i);
    else
      stripped += coloured[i];
  }
  CHECK(coloured.size() > plain.size());
  CHECK(stripped == plain);
}
