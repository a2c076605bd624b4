// The keyboard way from end to end: nothing but a DOS prompt and a disk that takes what is typed.
#include <catch2/catch.hpp>

#include "base/error.h"
#include "base/text.h"
#include "deliver/old_machine.h"
#include "deliver/parcel.h"
#include "deliver/samples.h"
#include "deliver/slips.h"
#include "forms/form.h"
#include "layout/library.h"

namespace rtcmend::test {

namespace {

constexpr std::size_t patience = 20'000'000;

/// What the program that reads shows on this machine, from its first row on.
std::string rows_shown(OldMachine& machine, const CaptureOrder& order = {}) {
  machine.screen.clear();
  machine.run_com(capture(order, Way::keyboard_program).content, patience);
  return machine.screen;
}

Image read_rows(const std::string& screen) {
  return read_dump(screen.substr(screen.find("00:")), "screen", Form::rows).image;
}

/// The dump on a screen, where there are rows whose codes all fit.
std::optional<Image> rows_that_fit(const std::string& screen) {
  if (screen.find("00:") == std::string::npos) return std::nullopt;
  try {
    const Image image = read_rows(screen);
    return image.size() == Image::small_size && image.all_known() ? std::optional(image)
                                                                  : std::nullopt;
  } catch (const Error&) {
    return std::nullopt;
  }
}

/// A machine whose chip holds this image.
OldMachine holding(const Image& image) {
  OldMachine machine;
  for (std::size_t i = 0; i < image.size(); ++i)
    machine.chip.bytes[i] = image[static_cast<Address>(i)];
  machine.chip.half = image.size() == Image::small_size;
  machine.chip.counts = false;
  return machine;
}

/// The sign behind the letters after typing MEND, or MEND with something behind it.
char sign_of(OldMachine& machine, const std::string& program, const std::string& tail = {}) {
  machine.screen.clear();
  machine.tail = tail;
  machine.run_com(program, patience);
  return machine.screen.empty() ? ' ' : machine.screen.back();
}

bool ram_is(const OldMachine& machine, const Image& wanted) {
  for (Address at = Image::ram_start; at < wanted.size(); ++at)
    if (wanted.known(at) && machine.chip.bytes[at] != wanted[at]) return false;
  return true;
}

/// An AT-class parcel as the command makes it, with the layout's unsteady bytes.
Parcel by_layout() {
  return parcel_of(at_64().image, built_in_layout("at"));
}

}  // namespace

TEST_CASE("the keyboard program that reads prints the chip as rows and writes nothing") {
  for (const std::size_t size : {Image::small_size, Image::large_size}) {
    const Image image = size == Image::small_size ? at_64().image : at_128().image;
    OldMachine machine = holding(image);
    const std::string screen = rows_shown(machine, {size, DiskFormat::m1_44});
    CHECK(read_rows(screen) == image);
    CHECK(machine.chip.writes.empty());
    CHECK(machine.other_writes == 0);
    CHECK(machine.exit_code == 0);
    CHECK(machine.chip.selected == 0x0D);
    CHECK_FALSE(machine.chip.nmi_masked);
  }
  CHECK(capture({}, Way::keyboard_program).keystrokes < 600);
}

TEST_CASE("what the program that reads leaves in a file is a dump, its letters in front and all") {
  OldMachine machine = holding(at_64().image);
  const std::string file = rows_shown(machine, {64, DiskFormat::m1_44});
  CHECK(read_dump(file, "ROWS.TXT", std::nullopt).image == at_64().image);
}

TEST_CASE("without a chip the program that reads comes to its end") {
  OldMachine machine;
  machine.chip.present = false;
  CHECK(rows_shown(machine).find("70: FF FF") != std::string::npos);
  CHECK(machine.exit_code == 0);
}

TEST_CASE("500 slips in the program that reads never touch the chip nor show a wrong row",
          "[long][count]") {
  const std::string right = capture({64, DiskFormat::m1_44}, Way::keyboard_program).content;
  Dice dice(31);
  for (std::uint32_t i = 0; i < 500; ++i) {
    const Slip slip = random_slip(right, dice);
    OldMachine machine = holding(at_64().image);
    machine.run_com(slip.text, patience);
    INFO(slip.kind << " in line " << slip.line + 1 << "\n" << slip.text);
    CHECK(machine.chip.writes.empty());
    const auto shown = rows_that_fit(machine.screen);
    CHECK((!shown || *shown == at_64().image));
  }
}

TEST_CASE("read, written, kept over night and compared by typing alone") {
  // The chip of a new part: rubbish in its RAM, its oscillator off.
  const Parcel parcel = by_layout();
  OldMachine machine = holding(parcel.image);
  for (Address at = Image::ram_start; at < 0x40; ++at)
    machine.chip.bytes[at] = static_cast<std::uint8_t>(at * 7);
  machine.chip.bytes[0x0A] = 0x06;
  machine.chip.counts = true;
  CHECK(read_rows(rows_shown(machine, {64, DiskFormat::m1_44}))[0x10] == 0x70);

  const std::string program = deliver(parcel, Way::keyboard_program).content;
  CHECK(sign_of(machine, program, " C") == '-');
  CHECK(machine.chip.writes.empty());
  CHECK(sign_of(machine, program) == '+');
  CHECK(ram_is(machine, parcel.image));
  // The oscillator runs: 010 in bits 6-4 of 0Ah (DS12885).
  CHECK((machine.chip.bytes[0x0A] & 0x70) == 0x20);

  // The night: the firmware writes its diagnostic byte and the reason of the restart at the start.
  machine.chip.writes.clear();
  machine.chip.bytes[0x0E] = 0x04;
  machine.chip.bytes[0x0F] = 0x09;
  CHECK(sign_of(machine, program, " C") == '+');
  CHECK(machine.chip.writes.empty());
  machine.chip.bytes[0x15] ^= 0x80;
  CHECK(sign_of(machine, program, " C") == '-');
  CHECK(machine.chip.writes.empty());
}

TEST_CASE("a blank behind the name is no letter: it writes") {
  const Parcel parcel = by_layout();
  OldMachine machine;
  CHECK(sign_of(machine, deliver(parcel, Way::keyboard_program).content, " ") == '+');
  CHECK(ram_is(machine, parcel.image));
}

TEST_CASE("a program with a balance byte compares as well") {
  const Parcel parcel = balance_64();
  OldMachine machine;
  const std::string program = deliver(parcel, Way::keyboard_program).content;
  CHECK(sign_of(machine, program) == '+');
  machine.chip.writes.clear();
  CHECK(sign_of(machine, program, " C") == '+');
  machine.chip.bytes[0x3F] ^= 1;
  CHECK(sign_of(machine, program, " C") == '-');
  CHECK(machine.chip.writes.empty());
}

TEST_CASE("an early part keeps the divider bits of its own crystal, a later one is started") {
  // MC146818A: 000 counts from 4.194304 MHz.
  Parcel parcel = by_layout();
  parcel.image.set(0x0A, 0x06);
  for (const Way way : {Way::keyboard_program}) {
    OldMachine machine;
    machine.run_com(deliver(parcel, way).content, patience);
    CHECK(machine.chip.bytes[0x0A] == 0x26);
    parcel.running_dividers = {0, 1, 2};
    OldMachine early;
    early.run_com(deliver(parcel, way).content, patience);
    CHECK(early.chip.bytes[0x0A] == 0x06);
  }
}

TEST_CASE("the sheet is complete: the disk first, begin and end, and both pictures of the screen") {
  for (const Delivery& made :
       {deliver(by_layout(), Way::keyboard_program), capture({}, Way::keyboard_program)}) {
    for (const char* words :
         {"FIRST SEE WHETHER A DISK TAKES WHAT YOU TYPE", "RAMDRIVE", "COPY CON A",
          "F6, then Enter", "(the letters)", "the mistake is in the line of the first one"})
      CHECK(made.sheet.find(words) != std::string::npos);
    for (const std::string_view line : lines(made.sheet)) CHECK(line.size() <= 80);
  }
}

}  // namespace rtcmend::test
