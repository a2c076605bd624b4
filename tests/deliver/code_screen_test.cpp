// The codes that the programs on the old machine draw, in the tests' own 8086, against the encoder
// of the C++ side.
#include <algorithm>
#include <catch2/catch.hpp>
#include <memory>

#include "base/text.h"
#include "deliver/old_machine.h"
#include "deliver/program.h"
#include "deliver/restore_program.h"
#include "deliver/samples.h"
#include "forms/code_text.h"
#include "forms/form.h"
#include "qr/qr_code.h"
#include "support/cycles_8088.h"
#include "support/photograph.h"

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

/// Whether a screen shows just this code, and of its light zone what there is room for.
bool shows(const TextScreen& screen, const QrCode& code) {
  constexpr int whole = QrCode::side + 2 * QrCode::quiet;
  const bool narrow = screen.columns() == 40;
  const int from = narrow ? 0 : (80 - whole) / 2, to = narrow ? 40 : from + whole;
  const int left = narrow ? 2 : from + QrCode::quiet;
  for (int row = 0; row < whole; ++row)
    for (int column = from; column < to; ++column)
      if (is_lit(screen, static_cast<std::size_t>(row), static_cast<std::size_t>(column)) ==
          code.dark(row - QrCode::quiet, column - left))
        return false;
  return true;
}

/// The screen as a colour display of 200 lines shows it, a character 8 points high, and 8 or 16
/// wide.
Picture on_colour_glass(const TextScreen& screen) {
  Picture picture{640, 200, {}};
  const std::size_t width = 640 / screen.columns();
  for (std::size_t y = 0; y < 200; ++y)
    for (std::size_t x = 0; x < 640; ++x)
      picture.grey.push_back(is_lit(screen, y / 4, x / width) ? 0xA8 : 0x00);
  return picture;
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
    machine.glass.only_narrow = i % 20 < 2;
    machine.chip.counts = false;
    fill_chip(machine, dice, i % 2 == 0);
    const Seen seen = (i % 4 < 2 ? show : show_booted)(machine);
    const std::vector<QrCode> codes = codes_of(machine);
    REQUIRE(seen.screens.size() == codes.size());
    for (std::size_t k = 0; k < codes.size(); ++k) {
      CAPTURE(i, k);
      CHECK(shows(seen.screens[k], codes[k]));
    }
  }
}

TEST_CASE("the old machine's codes are module for module those of the encoder beside it") {
  hold_against_the_encoder(20);
}

TEST_CASE("a thousand chips as the old machine draws them and as the encoder does", "[.figures]") {
  hold_against_the_encoder(1000);
}

TEST_CASE("a code is shown in 80 columns, and then the screen is in its own mode again") {
  for (const auto& [own, shown] :
       {std::pair<std::uint8_t, std::uint8_t>{0, 2}, {1, 3}, {2, 2}, {3, 3}, {7, 7}, {6, 3}}) {
    OldMachine machine;
    machine.glass = TextScreen(own);
    CHECK(show(machine).screens.at(0).mode() == shown);
    CHECK(machine.glass.mode() == (own == 6 ? 3 : own));
  }
}

TEST_CASE("where 80 columns are not to be had, two readers read the code in 40") {
  OldMachine machine;
  machine.glass = TextScreen(1);
  machine.glass.only_narrow = true;
  machine.chip.half = true;
  machine.chip.counts = false;
  const TextScreen screen = show(machine).screens.at(0);
  CHECK(screen.columns() == 40);
  CHECK(shows(screen, codes_of(machine).front()));
  for (const CodeReader reader : code_readers)
    if (has(reader))
      CHECK(
          read_dump(read_codes(reader, {on_colour_glass(screen)}).front(), "code", Form::code_text)
              .image == machine.chip.image(64));
}

TEST_CASE("the line below a code says which one it is, and that a key goes on") {
  OldMachine machine;
  machine.chip.bytes[0x50] = 1;
  const Seen seen = show(machine);
  REQUIRE(seen.screens.size() == 2);
  CHECK(trim(seen.screens[0].line(24)) == "Code 1 of 2 for a phone; a key goes on.");
  CHECK(trim(seen.screens[1].line(24)) == "Code 2 of 2 for a phone; a key goes on.");
  machine.glass = TextScreen(0);
  machine.glass.only_narrow = true;
  machine.chip.half = true;
  CHECK(trim(show(machine).screens.at(0).line(24)) == "Code 1 of 1 for a phone; a key goes on.");
}

TEST_CASE("behind the codes the rows are shown") {
  OldMachine machine;
  machine.chip.counts = false;
  machine.chip.bytes[0x50] = 1;
  show(machine);
  CHECK(read_dump(machine.screen.substr(machine.screen.find("00:")), "rows", Form::rows).image ==
        machine.chip.image(128));
}

// A hundred of each emulator's screen are a figure (code_on_emulators_test.cpp).
TEST_CASE(
    "photographs of a code, bent, tilted, halved, blurred and noisy, are read as what it says",
    "[long]") {
  OldMachine machine;
  machine.chip.half = true;
  machine.chip.counts = false;
  const Picture glass = on_colour_glass(show(machine).screens.at(0));
  std::mt19937 random(15);
  std::vector<Picture> photos;
  for (int i = 0; i < 6; ++i) {
    const Pose pose = random_pose(random);
    photos.push_back(photograph(glass, pose, random));
  }
  const std::string text = code_texts(machine.chip.image(64)).front();
  for (const CodeReader reader : code_readers)
    if (has(reader)) CHECK(read_codes(reader, photos) == std::vector<std::string>(6, text));
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

TEST_CASE("the capture programs are as large as the documentation says: 1 KB of it for the codes") {
  // 1,349 and 1,550 bytes before.
  CHECK(Program("capture_dos").bytes().size() == 2349);
  CHECK(Program("capture_floppy").bytes().size() == 2615);
}

// The programs that write.

namespace {

/// What wrote a parcel, or was told not to, and the codes that it showed.
struct Wrote {
  OldMachine machine;
  Seen seen;
};

/// A chip of the parcel's size, whose clock stands still so that it can be compared whole.
std::unique_ptr<Wrote> before_writing(const Parcel& parcel, const std::string& keys) {
  auto wrote = std::make_unique<Wrote>();
  watch(wrote->machine, wrote->seen);
  wrote->machine.chip.half = parcel.image.size() == 64;
  wrote->machine.chip.counts = false;
  wrote->machine.keys = keys;
  return wrote;
}

std::unique_ptr<Wrote> write_on_dos(const Parcel& parcel, const std::string& keys) {
  auto wrote = before_writing(parcel, keys);
  CHECK(wrote->machine.run_com(deliver(parcel, Way::dos_program).content) == Stop::ended);
  return wrote;
}

std::unique_ptr<Wrote> write_booted(const Parcel& parcel, const std::string& keys) {
  auto wrote = before_writing(parcel, keys + "r");
  const std::string program = restore_program("restore_floppy", parcel, plan_writing(parcel));
  CHECK(wrote->machine.run_booted(program) == Stop::restarted);
  return wrote;
}

std::size_t times_shown(const OldMachine& machine, std::string_view text) {
  std::size_t times = 0;
  for (auto at = machine.screen.find(text); at != std::string::npos;
       at = machine.screen.find(text, at + 1))
    ++times;
  return times;
}

/// Whether the screens show what the chip holds.
bool show_the_chip(const Wrote& wrote) {
  const auto codes = codes_of(wrote.machine);
  return std::equal(
      codes.begin(), codes.end(), wrote.seen.screens.begin(), wrote.seen.screens.end(),
      [](const QrCode& code, const TextScreen& screen) { return shows(screen, code); });
}

/// A parcel with codes, and with its own time, so that no clock has to run.
Parcel with_codes(Parcel parcel) {
  parcel.clock = ClockPolicy::image;
  parcel.codes = true;
  return parcel;
}

}  // namespace

TEST_CASE("what was written is shown as codes once it was read back, and the report once more") {
  for (const Parcel& parcel : {with_codes(at_64()), with_codes(at_128())})
    for (const auto& run : {write_on_dos, write_booted}) {
      const bool two = parcel.image.size() == 128;
      const auto wrote = run(parcel, two ? "wq  n" : "wq n");
      CAPTURE(parcel.image.size(), wrote->machine.screen);
      CHECK(times_shown(wrote->machine, "Every byte reads back as it was written.") == 2);
      CHECK(wrote->seen.screens.size() == (two ? 2 : 1));
      CHECK(show_the_chip(*wrote));
      CHECK(wrote->machine.chip.bytes[0x10] == parcel.image[0x10]);
    }
}

TEST_CASE("a byte that did not take stands in the code as the chip gave it back") {
  const Parcel parcel = with_codes(at_64());
  const auto wrote = before_writing(parcel, "wq n");
  wrote->machine.chip.writable = false;
  CHECK(wrote->machine.run_com(deliver(parcel, Way::dos_program).content) == Stop::ended);
  CHECK(wrote->machine.exit_code == 1);
  CHECK(times_shown(wrote->machine, "byte(s) did not take") == 2);
  CHECK(wrote->seen.screens.size() == 1);
  CHECK(show_the_chip(*wrote));
}

TEST_CASE("before anything is written, Q shows the chip as it is") {
  for (const auto& run : {write_on_dos, write_booted}) {
    const auto wrote = run(with_codes(at_64()), "q n");
    CAPTURE(wrote->machine.screen);
    CHECK(wrote->machine.chip.writes.empty());
    CHECK(wrote->seen.screens.size() == 1);
    CHECK(show_the_chip(*wrote));
  }
}

TEST_CASE("a program without codes shows none, and is 1 KB smaller") {
  const auto wrote = write_on_dos(at_64(), "qn");
  CHECK(wrote->seen.screens.empty());
  CHECK(wrote->machine.chip.writes.empty());
  const auto size = [](std::string_view name) { return Program(name).bytes().size(); };
  CHECK(size("restore_dos_codes") - size("restore_dos") == 1134);
  CHECK(size("restore_floppy_codes") - size("restore_floppy") == 1134);
}

TEST_CASE("codes are refused where no program could show them, and where nobody would look") {
  Parcel parcel = with_codes(at_64());
  for (const Way way : {Way::debugger_script, Way::basic_listing, Way::keyboard_program})
    CHECK_THROWS_WITH(deliver(parcel, way), Catch::Contains("can show a code for a phone"));
  parcel.occasion = Occasion::when_lost;
  CHECK_THROWS_WITH(deliver(parcel, Way::dos_program), Catch::Contains("nobody stands by"));
}

}  // namespace rtcmend::test
