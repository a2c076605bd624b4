#include "support/pseudo_terminal.h"

#include <cstdlib>
#include <fcntl.h>
#include <stdexcept>
#include <unistd.h>

namespace rtcmend::test {

PseudoTerminal::PseudoTerminal() : outside_(::posix_openpt(O_RDWR | O_NOCTTY | O_CLOEXEC)) {
  if (outside_ < 0 || ::grantpt(outside_) != 0 || ::unlockpt(outside_) != 0)
    throw std::runtime_error("cannot make a terminal");
  name_ = ::ptsname(outside_);
  // Held open, so that what a program wrote outlives it.
  inside_ = ::open(name_.c_str(), O_RDWR | O_NOCTTY | O_CLOEXEC);
  ::fcntl(outside_, F_SETFL, O_NONBLOCK);
}

PseudoTerminal::~PseudoTerminal() {
  ::close(inside_);
  ::close(outside_);
}

std::string PseudoTerminal::written() const {
  std::string text;
  char piece[4096];
  for (;;) {
    const ssize_t count = ::read(outside_, piece, sizeof piece);
    if (count <= 0) return text;
    text.append(piece, static_cast<std::size_t>(count));
  }
}

}  // namespace rtcmend::test
