#include <stdexcept>

#include "deliver/carriers.h"
#include "deliver/keyboard_text.h"
#include "deliver/program.h"

namespace rtcmend {

namespace {

constexpr SheetWords words{
    "ROWS", "THE KEYBOARD PROGRAM THAT READS THE CLOCK CHIP\n\n",
    "Then type ROWS and Enter. When all is right the screen shows the letters of the\n"
    "right column, and below them the chip, 16 bytes a row with a code behind each:\n\n"
    "    C>ROWS\n"
    "    (the letters)\n"
    "    00: 12 00 03 00 21 00 02 23 11 26 26 02 00 80 00 00 =DD\n"
    "    10: 40 00 F0 00 ...\n\n"
    "Photograph the rows, or copy them by hand: a slip is found by the code behind\n"
    "its row. ROWS > ROWS.TXT keeps them on the disk. With a serial cable to another\n"
    "computer, type MODE COM1:96,N,8,1 and then ROWS > COM1.\n\n"};

TypedProgram reader(std::uint8_t end) {
  for (int spare = 1; spare <= 0xFF; ++spare) {
    Program program("keyboard_reader");
    program.fill_byte("size", end);
    program.fill_byte("spare", static_cast<std::uint8_t>(spare));
    if (auto made = typed_program(program.bytes())) return *made;
  }
  throw std::logic_error("no spare byte keeps zeros out of the keyboard program that reads");
}

}  // namespace

Delivery keyboard_capture(const CaptureOrder& order) {
  return typed_delivery(reader(static_cast<std::uint8_t>(order.size.value_or(Image::large_size))),
                        words);
}

}  // namespace rtcmend
