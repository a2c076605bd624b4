#pragma once

#include <string>
#include <sys/types.h>
#include <vector>

#include "deliver/workplace.h"
#include "support/code_readers.h"

namespace rtcmend::test {

/// A program that runs beside the test, and ends with it.
class Companion {
 public:
  /// `words`: the program and its arguments. `output`: a file for what it prints.
  Companion(const std::vector<std::string>& words, const std::string& output,
            const std::vector<std::pair<std::string, std::string>>& environment = {});
  ~Companion();
  Companion(const Companion&) = delete;
  Companion& operator=(const Companion&) = delete;

 private:
  pid_t process_ = -1;
};

/// DOSBox on a display of its own (Xvfb), whose picture can be taken while a program waits for a
/// key.
class DosboxScreen {
 public:
  /// `machine`: "hercules" is monochrome, "cga" colour. The workplace is drive C.
  DosboxScreen(const Workplace& workplace, const std::string& machine,
               const std::vector<std::string>& commands);
  Picture picture() const;

 private:
  static std::string display_in(const Workplace& workplace);

  const Workplace& workplace_;
  Companion display_;
  Companion dosbox_;
};

/// Whether Xvfb is installed; says what is left out when not.
bool has_display();

}  // namespace rtcmend::test
