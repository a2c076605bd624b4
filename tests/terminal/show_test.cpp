#include "terminal/show.h"

#include <catch2/catch.hpp>

#include "layout/library.h"
#include "render/json.h"
#include "render/small_layout.h"

using namespace rtcmend;
using namespace rtcmend::test;

TEST_CASE("a sound dump is shown as a record card") {
  const Shown shown(at_64_image());
  CHECK(show_text(shown.card(), RegisterDetail::a_line_each, Ink()) ==
        R"( .----------.
-' dump.bin '------------------------------------------------------------------
  layout     small: A small layout
  dump       raw, 64 bytes
  verdict    Sound: settings proven, clock right.
  clock      2031-05-14 09:30:00, Wednesday; running
  kept in    BCD, 24 hours
  alarm      at 00:00:00

Drives
  10       First floppy drive ........... 1.44M        floppy_a
  12 19    First fixed disk, type ....... 39           disk_0_type
Memory
  15-16    Base memory .................. 640 KiB      base_memory_kib
  0E       What the self-test found at the last start
                                          0            start_status
  32       Century ...................... 20           century
Registers
  0A       26  DV = 2, RS = 6
  0B       02  24/12
  0C       00  nothing set
  0D       80  VRT
Locks
  38-3F    Password ..................... not set      word
Checks
  2E-2F    sum-10-2d: 16-bit sum over 10-2D
           holds  0267
)");
}

TEST_CASE("registers are written out bit by bit when asked for") {
  const Shown shown(at_64_image());
  const std::string text = show_text(shown.card(), RegisterDetail::every_bit, Ink());
  CHECK(text.find("rate 6: interrupt 976.5625 us, square wave 1.024 kHz\n") != std::string::npos);
  CHECK(text.find("             7    UIP     0  ") != std::string::npos);
  CHECK(text.find("             6-4  DV      2  ") != std::string::npos);
}

TEST_CASE("a failed check shows what is stored and what it should be") {
  const Shown shown(with_bytes(at_64_image(), {{0x2F, 0x68}}));
  const std::string text = verify_text(shown.card(), Ink());
  CHECK(text.find("  verdict    Settings broken; the clock is right. (1 fault)\n") !=
        std::string::npos);
  CHECK(text.find("           FAILS  stored 0268, should be 0267\n") != std::string::npos);
  CHECK(text.find("  fault    check-mismatch at ") != std::string::npos);
}

TEST_CASE("a check that lacks a byte says which") {
  const Shown shown(without(at_64_image(), {0x20, 0x21}));
  CHECK(verify_text(shown.card(), Ink()).find("cannot be judged: unknown 20-21\n") !=
        std::string::npos);
}

TEST_CASE("a value without a meaning is marked, an unknown one says so") {
  const Shown odd(with_bytes(at_64_image(), {{0x10, 0x90}}));
  CHECK(show_text(odd.card(), RegisterDetail::a_line_each, Ink())
            .find("! 10       First floppy drive ........... code 9       floppy_a\n") !=
        std::string::npos);
  const Shown missing(without(at_64_image(), {0x00, 0x10}));
  const std::string text = show_text(missing.card(), RegisterDetail::a_line_each, Ink());
  CHECK(text.find("  10       First floppy drive ........... unknown      floppy_a\n") !=
        std::string::npos);
  CHECK(text.find("  dump       raw, 64 bytes; 17 of them unknown (00-10)\n") != std::string::npos);
  CHECK(text.find("  0A       ??  unknown\n") != std::string::npos);
}

TEST_CASE("a password is set or not set, and nothing else is said about it") {
  const Shown shown(with_bytes(at_64_image(), {{0x38, 0xA7}}));
  const std::string text = show_text(shown.card(), RegisterDetail::a_line_each, Ink());
  CHECK(text.find("Password ..................... set          word\n") != std::string::npos);
  CHECK(text.find("A7") == std::string::npos);
}

TEST_CASE("a clock in binary and twelve hours is told as such") {
  // MC146818A: DM (bit 2 of 0Bh) is binary, 24/12 (bit 1) clear is twelve hours; 89h = 9 in the
  // afternoon.
  const Shown shown(with_bytes(at_64_image(), {{0x0B, 0x04}, {0x04, 0x89}}));
  const std::string text = show_text(shown.card(), RegisterDetail::a_line_each, Ink());
  CHECK(text.find("  kept in    binary, 12 hours\n") != std::string::npos);
  CHECK(show_json(shown.card())["clock"]["encoding"] == "binary");
  CHECK(show_json(shown.card())["clock"]["hours"] == 12);
}

TEST_CASE(
    "flags of a group that all say no are folded into one line, and one that says yes is not") {
  const Layout layout = built_in_layout("at");
  const auto shown = [&](const Image& image) {
    const Dump dump{image, Form::raw, {}, {}};
    const Examination examination = examine(image, layout);
    const std::string name = "dump.bin";
    return show_text({name, dump, layout, examination}, RegisterDetail::a_line_each, Ink());
  };
  const std::string quiet = shown(at_64_image());
  CHECK(quiet.find("  all no   diag_clock_lost_power, diag_check_wrong, diag_equipment_wrong,\n") !=
        std::string::npos);
  CHECK(quiet.find("Clock lost its power") == std::string::npos);
  // RBIL61 C0005: bit 7 of 0Eh.
  const std::string told = shown(with_bytes(at_64_image(), {{0x0E, 0x80}}));
  CHECK(told.find("all no") == std::string::npos);
  CHECK(told.find("Clock lost its power ......... yes") != std::string::npos);
  CHECK(told.find("Check bytes were wrong ....... no") != std::string::npos);
}
