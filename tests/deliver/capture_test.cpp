#include <catch2/catch.hpp>

#include "base/error.h"
#include "base/text.h"
#include "deliver/old_machine.h"
#include "deliver/qemu.h"
#include "deliver/samples.h"
#include "forms/form.h"

namespace rtcmend::test {

namespace {

/// The lines of a screen that are rows.
std::string rows_on(const std::string& screen) {
  std::string rows;
  for (const std::string_view line : lines(screen))
    if (line.find(" =") != std::string_view::npos) rows += std::string(trim(line)) + "\n";
  return rows;
}

Image from_rows(const std::string& text) {
  return read_dump(text, "rows", Form::rows).image;
}

std::string dos_rows(OldMachine& machine, const CaptureOrder& order) {
  machine.run_com(capture(order, Way::dos_program).content);
  CHECK(machine.exit_code == 0);
  CHECK(machine.chip.writes.empty());
  return machine.screen;
}

/// RAM bytes alike; the clock has moved on.
bool same_ram(const Image& a, const Image& b) {
  for (Address at = Image::ram_start; at < b.size(); ++at)
    if (a.at(at) != b.at(at)) return false;
  return a.size() == b.size();
}

}  // namespace

TEST_CASE("the DOS capture program prints rows that read back as the chip, and writes nothing") {
  OldMachine machine;
  for (Address at = 0x0E; at < 0x80; ++at)
    machine.chip.bytes[at] = static_cast<std::uint8_t>(at * 37 + 11);
  const std::string rows = dos_rows(machine, {});
  CHECK(from_rows(rows) == machine.chip.image(128));
  CHECK(machine.chip.selected == 0x0D);
  CHECK_FALSE(machine.chip.nmi_masked);
}

TEST_CASE("the DOS capture program tells a chip of 64 bytes, unless it is told the size") {
  OldMachine machine;
  machine.chip.half = true;
  machine.chip.bytes[0x20] = 0x55;
  CHECK(from_rows(dos_rows(machine, {})) == machine.chip.image(64));
  OldMachine told;
  told.chip.bytes[0x20] = told.chip.bytes[0x60] = 0x55;
  CHECK(from_rows(dos_rows(told, {128, DiskFormat::m1_44})) == told.chip.image(128));
}

TEST_CASE(
    "on 40 columns the DOS capture program prints rows that fit, and that their reader takes") {
  OldMachine machine;
  machine.glass = TextScreen(1);
  for (Address at = 0x0E; at < 0x80; ++at)
    machine.chip.bytes[at] = static_cast<std::uint8_t>(at * 37 + 11);
  const std::string rows = dos_rows(machine, {});
  for (const std::string_view line : lines(rows)) CHECK(line.size() <= 39);
  CHECK(from_rows(rows) == machine.chip.image(128));
}

TEST_CASE("the DOS capture program ends without a chip") {
  OldMachine machine;
  machine.chip.present = false;
  CHECK(from_rows(dos_rows(machine, {}))[0x3F] == 0xFF);
}

TEST_CASE("with S behind its name the DOS capture program sends the rows at 9600 8N1") {
  OldMachine machine;
  for (Address at = 0x0E; at < 0x80; ++at)
    machine.chip.bytes[at] = static_cast<std::uint8_t>(at * 37 + 11);
  machine.serial.present = true;
  machine.chip.counts = false;
  for (const char* letter : {" S", " s", "   S"}) {
    machine.tail = letter;
    machine.screen.clear();
    machine.serial.sent.clear();
    CHECK(dos_rows(machine, {}) == "Sent.\r\n");
    CHECK(from_rows(machine.serial.sent) == machine.chip.image(128));
  }
  CHECK(machine.other_writes == 0);
}

TEST_CASE("where the firmware knows of no such port, the DOS capture program says so") {
  OldMachine machine;
  machine.tail = " S";
  CHECK(dos_rows(machine, {}) == "The firmware knows of no such port.\r\n");
  machine.tail = " T";
  machine.serial.present = true;
  machine.screen.clear();
  CHECK(dos_rows(machine, {}) == "The firmware knows of no such port.\r\n");
  CHECK(machine.serial.sent.empty());
}

TEST_CASE("any other letter behind its name makes the DOS capture program show the rows") {
  OldMachine machine;
  for (Address at = 0x0E; at < 0x80; ++at)
    machine.chip.bytes[at] = static_cast<std::uint8_t>(at * 37 + 11);
  machine.serial.present = true;
  machine.chip.counts = false;
  for (const char* letter : {"", " ", " X", " /?"}) {
    machine.tail = letter;
    machine.screen.clear();
    CHECK(from_rows(dos_rows(machine, {})) == machine.chip.image(128));
  }
  CHECK(machine.serial.sent.empty());
}

TEST_CASE("the capture floppy's screen and serial port read back as the chip", "[long]") {
  const Workplace workplace;
  assemble(workplace, "reader.asm");
  workplace.put("reader.img", workplace.get("reader.asm.bin") + std::string(1474048, '\0'));
  const std::string floppy = capture({}, Way::boot_floppy).content;
  Qemu machine(workplace, {workplace.put("floppy.img", floppy), {}, "1994-05-06T12:00:00"});
  machine.wait_for("R starts the machine again");
  const Image seen = from_rows(rows_on(machine.screen()));
  machine.press({"s"});
  machine.wait_for("Sent.");
  const Image sent = from_rows(machine.serial_output());
  CHECK(sent == seen);
  machine.change_floppy(workplace.path("reader.img"));
  machine.press({"r"});
  machine.wait_for_end();
  CHECK(same_ram(seen, read_by_reader(machine)));
  CHECK(workplace.get("floppy.img") == floppy);
}

}  // namespace rtcmend::test
