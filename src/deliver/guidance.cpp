#include "deliver/guidance.h"

#include <fmt/format.h>

#include "chip/cautions.h"

namespace rtcmend {

namespace {

using Lines = std::vector<Advice>;

constexpr const char* make_disk =
    "Write the image to a floppy sector by sector (on Linux: dd if=FILE of=/dev/fd0; elsewhere "
    "with a "
    "program for raw disk images). Copying the file onto a formatted disk does not work.";

/// What every way that writes ends with.
Advice look_afterwards() {
  return {{"Restart the machine. When it is content, read the chip once more and compare",
           Act{Act::Kind::compare, {}, {}}}};
}

/// For every way that writes.
Lines common_cautions(Way way) {
  Lines lines{
      "0Fh is written as 00h whatever the dump holds: another value there could send the restart "
      "elsewhere than into the self-test.",
      {{"Read the chip out first, the same way, and keep the dump: what is written over is gone",
        Act{Act::Kind::capture, {}, std::string(name(way))}}},
      "The firmware looks at these bytes only when it starts; nothing changes before a restart."};
  const bool can_look_first = way == Way::boot_floppy || way == Way::dos_program;
  if (can_look_first)
    lines.push_back(
        by_hand({{"A chip whose cell is flat forgets it all when the power goes off: mend the cell "
                  "first, or "
                  "have it restored at each start",
                  Act{Act::Kind::choose, "when-lost", {}}}}));
  else
    lines.push_back(
        by_hand("A chip whose cell is flat forgets it all when the power goes off: mend the cell "
                "first."));
  lines.push_back(
      {{"When the firmware still asks for its setup: go into it, save, read the chip and see which "
        "layouts fit",
        Act{Act::Kind::identify, {}, {}}}});
  return lines;
}

Lines when_lost_steps(Way way) {
  if (way == Way::boot_floppy)
    return {
        make_disk,
        "Leave it in the drive. At each start it looks at the chip: a sound one is left alone and "
        "the machine starts from its hard disk.",
        "When the bytes are lost it restores them and restarts the machine warm. For two seconds "
        "any key stops it."};
  return {
      "Copy the program to the start disk of the machine as MEND.COM.",
      "Put the line MEND first in AUTOEXEC.BAT. A sound chip is left alone.",
      "When the bytes are lost it restores them and restarts the machine warm. For two seconds any "
      "key stops it."};
}

/// Behind the step in which the bytes are written, when the program can show codes.
Lines code_steps(const Parcel& parcel) {
  if (!parcel.codes) return {};
  return {
      {{"Behind the report, press Q and point a phone at the screen: it reads what the chip gave "
        "back, as one code or two. Compare that with the image",
        Act{Act::Kind::compare, {}, {}}}}};
}

Lines with(Lines lines, const Lines& more) {
  lines.insert(lines.end(), more.begin(), more.end());
  return lines;
}

}  // namespace

Lines delivery_steps(const Parcel& parcel, Way way, std::optional<std::uint16_t> sign) {
  if (parcel.occasion == Occasion::when_lost) return when_lost_steps(way);
  switch (way) {
    case Way::boot_floppy:
      return with(
          with({make_disk, "Start the old machine from it. It shows what it is about to write.",
                "Compare the check code on its screen with the one above, then press W."},
               code_steps(parcel)),
          {"Take the disk out, press R."});
    case Way::dos_program:
      return with(
          with({"Bring the program to the old machine as MEND.COM, on a floppy or over a cable.",
                "At the DOS prompt, without a memory manager or a multitasker running, type MEND.",
                "Compare the check code on its screen with the one above, then press W."},
               code_steps(parcel)),
          {look_afterwards()});
    case Way::debugger_script:
      return {
          "Either bring the script along as WRITE.SCR and type DEBUG < WRITE.SCR, or start DEBUG "
          "and type it in.",
          fmt::format("Behind g=100 the debugger shows the registers. BX={0:04X}: every byte took. "
                      "Nothing but the right bytes, read back, comes to BX={0:04X}.",
                      sign.value_or(0)),
          "Any other BX: when the script was typed in, compare it line by line, addresses included "
          "(nothing is written unless all of it is right). When it is right, BP less 80 is the "
          "address of a byte that did not take.",
          look_afterwards()};
    case Way::basic_listing:
      return {"Start BASICA, GW-BASIC or QBasic.",
              "Load the listing, or type it in; SAVE it before you RUN it.",
              "RUN checks every DATA line first and names one that is mistyped.",
              look_afterwards()};
    case Way::keyboard_program:
      break;
  }
  return {
      "Follow the typing sheet: it needs the DOS prompt, and a disk that takes what is typed. How "
      "to find that out, and what to do where none does, stands at its head.",
      "Type MEND. A plus sign behind the check letters: every byte took.",
      "Set the clock with the DOS commands DATE and TIME, and restart the machine.",
      "After a night without power type MEND C: it writes nothing and only compares. A plus sign: "
      "the chip kept its bytes."};
}

Lines delivery_cautions(const Parcel& parcel, Way way) {
  const Lines warnings(parcel.warnings.begin(), parcel.warnings.end());
  Lines lines;
  if (way == Way::boot_floppy)
    lines = {
        "Push the write protection of the floppy; the program never writes to a disk.",
        by_hand("When the machine does not start from it: the drive may want another disk format; "
                "a lost chip may have made the firmware forget the drive (answer its question with "
                "F1, or go through setup); swap drives A and B; clean the heads; or take another "
                "way.")};
  if (way == Way::dos_program || way == Way::keyboard_program)
    lines = {
        "Under a multitasker or a memory manager the ports may not reach the chip: start DOS "
        "plainly."};
  if (way == Way::basic_listing)
    lines = {
        "RUN checks the DATA lines, and what they have become in memory, before it writes. A slip "
        "in "
        "a line that writes shows afterwards only, as an error or as another code of what the chip "
        "holds: then mend the line and RUN again before a restart."};
  if (way == Way::debugger_script || way == Way::keyboard_program)
    lines.push_back(
        parcel.clock == ClockPolicy::image
            ? "The image's time is written; set the present one with DATE and TIME."
            : "The clock is started and else left alone: set it with the DOS commands DATE and "
              "TIME.");
  if (parcel.clock == ClockPolicy::ask && parcel.of_a_pc)
    lines.push_back("The time that you type is written in " + mode_words(ClockMode{}) +
                    ", as PC firmware reads it.");
  if (other_mode(parcel))
    lines.push_back("A clock that is set or started here counts in " + mode_words(ClockMode{}) +
                    ", as PC firmware reads it; the image has " +
                    mode_words(*mode_of(parcel.image)) + ".");
  if (parcel.image.size() == Image::large_size &&
      (way == Way::debugger_script || way == Way::keyboard_program))
    lines.push_back(
        "Only for a chip of 128 bytes: in one of 64 the upper half would go over the "
        "lower one.");
  return with(warnings, with(lines, common_cautions(way)));
}

Lines capture_steps(Way way) {
  switch (way) {
    case Way::boot_floppy:
      return {make_disk,
              "Start the old machine from it. It shows the chip as rows.",
              "Press Q and point a phone at the screen: it reads a code, two for 128 bytes. Or "
              "photograph the rows, copy them, or press S and catch them at the other end of a "
              "serial cable (9600 8N1).",
              {{"Read the text or the rows back in; a slip is found by the checks in them",
                Act{Act::Kind::show, {}, {}}}}};
    case Way::dos_program:
      return {
          "Bring the program to the old machine as ROWS.COM.",
          "Type ROWS Q and point a phone at the screen: it reads a code, two for 128 bytes. ROWS "
          "alone shows the rows, ROWS > A:ROWS.TXT keeps them, ROWS S sends them out of the first "
          "serial port (9600 8N1; T is the second)."};
    case Way::debugger_script:
      return {
          "Either bring the script along as READ.SCR and type DEBUG < READ.SCR > READ.TXT, or "
          "start DEBUG, type it in and photograph the screen.",
          {{"The file is read as it is", Act{Act::Kind::show, {}, {}}}}};
    case Way::basic_listing:
      return {"Start BASICA, GW-BASIC or QBasic, load the listing or type it in, RUN it.",
              "It shows the rows, and writes them to a file if you give it a name."};
    case Way::keyboard_program:
      break;
  }
  return {
      "Follow the typing sheet: it needs the DOS prompt, and a disk that takes what is typed.",
      "Type ROWS. Below the check letters it shows the rows: photograph or copy them, or keep them "
      "with ROWS > ROWS.TXT.",
      {{"Read the rows back in; a slip is found by the code behind each",
        Act{Act::Kind::show, {}, {}}}}};
}

Lines capture_cautions(Way way) {
  Lines lines{"Reading changes nothing in the chip but the flags of register C."};
  if (way == Way::boot_floppy)
    lines.push_back(
        by_hand("When the machine does not start from it: another disk format, the other drive, "
                "clean heads, or another way."));
  return lines;
}

}  // namespace rtcmend
