// The codes on the screens of whole emulated machines, photographed and read by programs that know
// nothing of this project.
#include <catch2/catch.hpp>

#include "deliver/code_pictures.h"
#include "deliver/dosbox_screen.h"
#include "deliver/qemu.h"
#include "deliver/samples.h"
#include "forms/form.h"

namespace rtcmend::test {

namespace {

Image image_in(const std::string& text) {
  return read_dump(text, "code", Form::code_text).image;
}

/// RAM bytes alike; the clock has moved on.
bool same_ram(const Image& a, const Image& b) {
  for (Address at = Image::ram_start; at < b.size(); ++at)
    if (a.at(at) != b.at(at)) return false;
  return a.size() == b.size();
}

/// Sets the video mode that is its only instruction's, as MODE does.
std::string mode_program(char mode) {
  return std::string("\xB8", 1) + mode + std::string("\x00\xCD\x10\xCD\x20", 5);
}

/// The code of DOSBox's chip on a screen of this mode, as two readers read it.
void check_dosbox(const std::string& machine, char mode) {
  if (!has_display() || !has(CodeReader::zbar) || !has(CodeReader::zxing)) return;
  const Workplace workplace;
  workplace.put("ROWS.COM", capture({64, DiskFormat::m1_44}, Way::dos_program).content);
  workplace.put("SETMODE.COM", mode_program(mode));
  DosboxScreen screen(workplace, machine, {"ROWS > ROWS.TXT", "SETMODE", "ROWS Q"});
  const TakenPicture taken = take_until_read([&] { return screen.picture(); }, CodeReader::zbar);
  const Image rows = read_dump(workplace.get("ROWS.TXT"), "rows", Form::rows).image;
  CHECK(same_ram(image_in(taken.text), rows));
  CHECK(read_codes(CodeReader::zxing, {taken.picture}).front() == taken.text);
}

}  // namespace

TEST_CASE("two readers read the codes on QEMU's screen, in colour text", "[long]") {
  if (!has(CodeReader::zbar) || !has(CodeReader::zxing)) return;
  const Workplace workplace;
  assemble(workplace, "reader.asm");
  workplace.put("reader.img", workplace.get("reader.asm.bin") + std::string(1474048, '\0'));
  const std::string floppy = capture({128, DiskFormat::m1_44}, Way::boot_floppy).content;
  Qemu machine(workplace, {workplace.put("floppy.img", floppy), {}, "1994-05-06T12:00:00"});
  machine.wait_for("R starts the machine again");
  machine.press({"q"});
  machine.wait_for("Code 1 of 2");
  const auto take = [&] { return machine.picture(); };
  const TakenPicture first = take_until_read(take, CodeReader::zbar);
  machine.press({"q"});
  machine.wait_for("Code 2 of 2");
  const TakenPicture second = take_until_read(take, CodeReader::zbar);
  CHECK(read_codes(CodeReader::zxing, {first.picture, second.picture}) ==
        std::vector{first.text, second.text});
  machine.press({"q"});
  machine.wait_for("R starts the machine again");
  machine.change_floppy(workplace.path("reader.img"));
  machine.press({"r"});
  machine.wait_for_end();
  CHECK(same_ram(image_in(second.text + "\n" + first.text), read_by_reader(machine)));
}

TEST_CASE("two readers read the code on DOSBox's monochrome screen", "[long]") {
  check_dosbox("hercules", 7);
}

TEST_CASE("two readers read the code on DOSBox's screen of 40 columns", "[long]") {
  check_dosbox("cga", 1);
}

TEST_CASE("two readers read the code on DOSBox's colour screen of 80 columns", "[long]") {
  check_dosbox("cga", 3);
}

}  // namespace rtcmend::test
