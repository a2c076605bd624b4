#include "terminal/board.h"

#include <catch2/catch.hpp>

#include "base/text.h"

using namespace rtcmend;

namespace {

bool says(const std::string& text, std::string_view words) {
  return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("a part that must not go in gets a reason, and no wires that could be followed") {
  for (const BoardFit& fit : board_fits()) {
    if (fit.fits) continue;
    const std::string text = wiring_text(&fit, Ink());
    INFO(text);
    CHECK(says(text, std::string(fit.part) + " must not go into this socket"));
    CHECK_FALSE(says(text, "AD0"));
    CHECK_FALSE(says(text, "Wires"));
  }
}

TEST_CASE("a part with a charger and parts whose pins are not known never fit") {
  for (const char* part : {"DS12CR887", "M48T86", "MC146818A"}) CHECK_FALSE(board_fit(part)->fits);
  CHECK(says(wiring_text(board_fit("DS12CR887"), Ink()), "it charges its own cell"));
}

TEST_CASE("cautions stand before what is wired, and the supply is drawn with its transistor") {
  const std::string text = wiring_text(board_fit("DS12887"), Ink());
  CHECK(text.starts_with("Cautions\n"));
  CHECK(text.find("Follow the local rules") < text.find("What it takes"));
  CHECK(text.find("How far this is proven") < text.find("\nWires\n"));
  CHECK(says(text, "No wire goes from A1 to pin 24 itself."));
  // No line of the chip's drawing leads from A1 to pin 24.
  for (const std::string_view line : lines(text))
    if (line.find("24 |") != std::string_view::npos)
      CHECK(line.find("A1") == std::string_view::npos);
  CHECK(says(text, "+ 10 uF - --- GND"));
}

TEST_CASE("the wiring fits a screen of 80 columns") {
  const std::string text = wiring_text(nullptr, Ink());
  for (const std::string_view line : lines(text)) {
    INFO(line);
    CHECK(line.size() <= 80);
  }
}
