#pragma once

#include <string>
#include <string_view>
#include <sys/types.h>
#include <vector>

#include "base/image.h"
#include "deliver/workplace.h"
#include "support/code_readers.h"

namespace rtcmend::test {

/// How an emulated PC is put together.
struct QemuSetup {
  std::string floppy;                         ///< image file; boots first
  std::string hard_disk;                      ///< image file, or empty
  std::string clock = "1994-05-06T12:00:00";  ///< what its clock chip says at the start
};

/// A PC in QEMU, driven from outside: its keys are pressed and its screen is read from text memory.
class Qemu {
 public:
  Qemu(const Workplace& workplace, const QemuSetup& setup);
  ~Qemu();
  Qemu(const Qemu&) = delete;
  Qemu& operator=(const Qemu&) = delete;

  /// The 25 lines of the screen, with line feeds.
  std::string screen();
  /// What the emulated display shows, as a picture.
  Picture picture();
  /// Waits until the screen holds a text; fails the test with the screen when it does not come.
  void wait_for(std::string_view text);
  /// Presses keys by the emulator's names: "w", "ret", "esc", "minus".
  void press(const std::vector<std::string>& keys);
  /// Types letters, digits, `-`, `:` and line feeds.
  void type(std::string_view text);
  /// Puts another disk into the floppy drive.
  void change_floppy(const std::string& image);
  /// Presses the reset button.
  void reset() { ask("system_reset"); }
  /// How often the firmware has started a disk in the floppy drive.
  std::size_t floppy_starts() const;
  /// Waits until the machine has switched itself off.
  void wait_for_end();

  /// What came out of port E9h, and out of the first serial port.
  std::string debug_output() const { return workplace_.get("debug.out"); }
  std::string serial_output() const { return workplace_.get("serial.out"); }

 private:
  std::string ask(const std::string& line);
  std::string read_line();

  const Workplace& workplace_;
  pid_t process_ = -1;
  int to_ = -1;
  int from_ = -1;
  std::string pending_;
};

/// The bytes the independent reader saw; fails when they are not 128.
Image read_by_reader(const Qemu& machine);

}  // namespace rtcmend::test
