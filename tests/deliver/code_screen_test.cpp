// The codes that the capture programs draw, in the tests' own 8086, against the encoder of the C++
// side.
#include <catch2/catch.hpp>
#include <memory>

#include "base/text.h"
#include "deliver/old_machine.h"
#include "deliver/program.h"
#include "deliver/samples.h"
#include "forms/code_text.h"
#include "forms/form.h"
#include "qr/qr_code.h"
#include "support/cycles_8088.h"

namespace rtcmend::test {

namespace {

/// The screens at which a program waited for a key.
struct Seen {
  std::vector<TextScreen> screens;
  std::uint64_t most_cycles = 0;  ///< for one of them, without what the firmware does in its calls
};

/// A chip of 128 bytes at random, or of 64.
void fill_chip(OldMachine& machine, Dice& dice, bool half) {
  for (Address at = Image::ram_start; at < 0x80; ++at) machine.chip.bytes[at] = dice.byte();
  machine.chip.half = half;
}

/// Counts until the program is told to go on.
void watch(OldMachine& machine, Seen& seen) {
  auto cycles = std::make_shared<std::uint64_t>(0);
  machine.cpu.on_step = [&machine, cycles] { *cycles += most_cycles_8088(machine.cpu); };
  machine.on_key = [&machine, &seen, cycles] {
    if (machine.glass.line(TextScreen::lines - 1).find("Code ") == std::string::npos) return;
    seen.screens.push_back(machine.glass);
    seen.most_cycles = std::max(seen.most_cycles, *cycles);
    *cycles = 0;
  };
}

/// Runs the DOS program with Q behind its name to its end.
Seen show(OldMachine& machine) {
  Seen seen;
  watch(machine, seen);
  machine.tail = " Q";
  machine.run_com(capture({}, Way::dos_program).content);
  CHECK(machine.exit_code == 0);
  CHECK(machine.chip.writes.empty());
  return seen;
}

/// Starts the floppy's program, presses Q as often as the codes need, then R.
Seen show_booted(OldMachine& machine) {
  Seen seen;
  watch(machine, seen);
  machine.keys = machine.chip.half ? "qqr" : "qqqr";
  Program program("capture_floppy");
  program.fill_byte("size", 0);
  const auto bytes = program.bytes();
  CHECK(machine.run_booted({reinterpret_cast<const char*>(bytes.data()), bytes.size()}) ==
        Stop::restarted);
  CHECK(machine.chip.writes.empty());
  return seen;
}

/// Whether a screen shows just this code, and its light zone as far as `sides` modules beside it.
bool shows(const TextScreen& screen, const QrCode& code, int sides) {
  const int left = (static_cast<int>(screen.columns()) - QrCode::side - 2 * sides) / 2 + sides;
  for (int row = -QrCode::quiet; row < QrCode::side + QrCode::quiet; ++row)
    for (int column = -sides; column < QrCode::side + sides; ++column)
      if (is_lit(screen, static_cast<std::size_t>(row + QrCode::quiet),
                 static_cast<std::size_t>(left + column)) == code.dark(row, column))
        return false;
  return true;
}

std::vector<QrCode> codes_of(const OldMachine& machine) {
  std::vector<QrCode> codes;
  for (const std::string& text : code_texts(machine.chip.image(machine.chip.half ? 64 : 128)))
    codes.push_back(qr_code(text));
  return codes;
}

}  // namespace

/// Of so many chips of both sizes, on every kind of screen in turn, with either program.
void hold_against_the_encoder(unsigned chips) {
  Dice dice(25);
  for (unsigned i = 0; i < chips; ++i) {
    OldMachine machine;
    machine.glass = TextScreen(std::array<std::uint8_t, 5>{0, 1, 2, 3, 7}[i / 2 % 5]);
    machine.chip.counts = false;
    fill_chip(machine, dice, i % 2 == 0);
    const Seen seen = (i % 4 < 2 ? show : show_booted)(machine);
    const std::vector<QrCode> codes = codes_of(machine);
    REQUIRE(seen.screens.size() == codes.size());
    for (std::size_t k = 0; k < codes.size(); ++k) {
      CAPTURE(i, k);
      CHECK(shows(seen.screens[k], codes[k], seen.screens[k].columns() == 40 ? 1 : QrCode::quiet));
    }
  }
}

TEST_CASE("the old machine's codes are module for module those of the encoder beside it") {
  hold_against_the_encoder(20);
}

TEST_CASE("a thousand chips as the old machine draws them and as the encoder does", "[.figures]") {
  hold_against_the_encoder(1000);
}

TEST_CASE("a code keeps the screen in its mode") {
  for (const std::uint8_t mode : {0, 1, 2, 3, 7}) {
    OldMachine machine;
    machine.glass = TextScreen(mode);
    CHECK(show(machine).screens.at(0).mode() == mode);
  }
}

TEST_CASE("the line below a code says which one it is, and that a key goes on") {
  OldMachine machine;
  machine.chip.bytes[0x50] = 1;
  const Seen seen = show(machine);
  REQUIRE(seen.screens.size() == 2);
  CHECK(trim(seen.screens[0].line(24)) == "Code 1 of 2 for a phone; a key goes on.");
  CHECK(trim(seen.screens[1].line(24)) == "Code 2 of 2 for a phone; a key goes on.");
  machine.glass = TextScreen(0);
  machine.chip.half = true;
  CHECK(trim(show(machine).screens.at(0).line(24)) == "Code 1 of 1 for a phone; a key goes on.");
}

TEST_CASE("behind the codes the rows are shown, and a screen of graphics becomes one of text") {
  OldMachine machine;
  machine.glass = TextScreen(6);
  machine.chip.counts = false;
  machine.chip.bytes[0x50] = 1;
  CHECK(show(machine).screens.at(0).mode() == 3);
  CHECK(read_dump(machine.screen.substr(machine.screen.find("00:")), "rows", Form::rows).image ==
        machine.chip.image(128));
}

// A key press apart, all that happens is counted; of what the firmware does in its thousand calls
// for a screen nobody has a table: 3,000 clocks each (common practice, no source) are 0.6 s more.
TEST_CASE("a code is drawn in three seconds of a processor of 4.77 MHz") {
  OldMachine machine;
  machine.chip.bytes[0x50] = 1;
  const Seen seen = show(machine);
  CHECK(seen.most_cycles > 1'000'000);
  CHECK(seen.most_cycles < 3 * 4'770'000 - 950 * 3'000);
}

TEST_CASE("the capture programs have grown by less than 2 KB for their codes") {
  // 1,374 and 1,575 bytes before, with the table of places that is cut off when they are handed
  // out.
  for (const auto& [name, before] : {std::pair{"capture_dos", 1374U}, {"capture_floppy", 1575U}})
    CHECK(Program(name).bytes().size() < before + 2048);
}

}  // namespace rtcmend::test
