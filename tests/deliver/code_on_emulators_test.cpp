// The codes on the screens of whole emulated machines, photographed and read by programs that know
// nothing of this project.
#include <catch2/catch.hpp>

#include "deliver/code_pictures.h"
#include "deliver/dosbox_screen.h"
#include "deliver/qemu.h"
#include "deliver/samples.h"
#include "forms/form.h"
#include "support/photograph.h"

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

/// A kind of screen: how DOSBox is told, and how many points its picture has.
struct Glass {
  std::string machine;
  char mode;
  int width, height;
};
const Glass monochrome{"hercules", 7, 720, 350};
const Glass narrow{"cga", 1, 640, 400};
const Glass wide{"cga", 3, 640, 400};

/// The code of DOSBox's chip on a screen, and the rows that it printed before.
struct DosboxPicture {
  TakenPicture taken;
  Image rows;
};
DosboxPicture picture_of_dosbox(const Glass& glass) {
  const Workplace workplace;
  workplace.put("ROWS.COM", capture({64, DiskFormat::m1_44}, Way::dos_program).content);
  workplace.put("SETMODE.COM", mode_program(glass.mode));
  DosboxScreen screen(workplace, glass.machine, {"ROWS > ROWS.TXT", "SETMODE", "ROWS Q"});
  const auto take = [&] { return cropped(screen.picture(), glass.width, glass.height); };
  TakenPicture taken = take_until_read(take, CodeReader::zbar);
  return {taken, read_dump(workplace.get("ROWS.TXT"), "rows", Form::rows).image};
}

bool has_all() {
  return has_display() && has(CodeReader::zbar) && has(CodeReader::zxing);
}

void check_dosbox(const Glass& glass) {
  if (!has_all()) return;
  const DosboxPicture seen = picture_of_dosbox(glass);
  CHECK(same_ram(image_in(seen.taken.text), seen.rows));
  CHECK(read_codes(CodeReader::zxing, {seen.taken.picture}).front() == seen.taken.text);
}

Picture picture_of_qemu(const Workplace& workplace, std::string& text) {
  const std::string floppy = capture({128, DiskFormat::m1_44}, Way::boot_floppy).content;
  Qemu machine(workplace, {workplace.put("floppy.img", floppy), {}, "1994-05-06T12:00:00"});
  machine.wait_for("R starts the machine again");
  machine.press({"q"});
  machine.wait_for("Code 1 of 2");
  const TakenPicture taken = take_until_read([&] { return machine.picture(); }, CodeReader::zbar);
  text = taken.text;
  return taken.picture;
}

/// How many photographs of a screen the readers read as what stands there, and how many otherwise.
struct Read {
  unsigned by_zbar = 0, by_zxing = 0, by_either = 0, wrong = 0;
};
Read read_photographs(const Picture& screen, const std::string& text, unsigned count) {
  std::mt19937 random(15);
  std::vector<Picture> photos;
  for (unsigned i = 0; i < count; ++i) {
    const Pose pose = random_pose(random);
    photos.push_back(photograph(screen, pose, random));
  }
  const auto first = read_codes(CodeReader::zbar, photos);
  const auto second = read_codes(CodeReader::zxing, photos);
  Read read;
  for (std::size_t i = 0; i < photos.size(); ++i) {
    read.by_zbar += first[i] == text;
    read.by_zxing += second[i] == text;
    read.by_either += first[i] == text || second[i] == text;
    for (const std::string& one : {first[i], second[i]}) read.wrong += !one.empty() && one != text;
  }
  return read;
}

void report_photographs(const std::string& screen, const Read& read) {
  WARN(screen << ": " << read.by_zbar << " of 100 read by zbarimg, " << read.by_zxing
              << " by ZXingReader, " << read.by_either << " by one of them, " << read.wrong
              << " wrongly");
  CHECK(read.by_zbar >= 95);
  CHECK(read.by_zxing >= 95);
  CHECK(read.wrong == 0);
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
  check_dosbox(monochrome);
}

TEST_CASE("two readers read the code on DOSBox's screen that was one of 40 columns", "[long]") {
  check_dosbox(narrow);
}

TEST_CASE("two readers read the code on DOSBox's colour screen of 80 columns", "[long]") {
  check_dosbox(wide);
}

TEST_CASE(
    "photographs of the screens, bent, tilted, halved, blurred and noisy, as two readers read them",
    "[.figures]") {
  if (!has_all()) return;
  const Workplace workplace;
  std::string text;
  const Picture colour = picture_of_qemu(workplace, text);
  report_photographs("QEMU, 80 columns in colour", read_photographs(colour, text, 100));
  for (const auto& [name, glass] : {std::pair{"DOSBox, monochrome", monochrome},
                                    {"DOSBox, 40 columns before", narrow},
                                    {"DOSBox, 80 columns in colour", wide}}) {
    const DosboxPicture seen = picture_of_dosbox(glass);
    report_photographs(name, read_photographs(seen.taken.picture, seen.taken.text, 100));
  }
}

}  // namespace rtcmend::test
