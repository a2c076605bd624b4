#pragma once

#include <string>

namespace rtcmend::test {

/// A terminal that nobody sits at: what is written to it can be read back.
class PseudoTerminal {
 public:
  PseudoTerminal();
  PseudoTerminal(const PseudoTerminal&) = delete;
  PseudoTerminal& operator=(const PseudoTerminal&) = delete;
  ~PseudoTerminal();

  /// The device: "/dev/pts/3".
  const std::string& name() const { return name_; }
  /// Its descriptor, open for writing.
  int descriptor() const { return inside_; }
  /// What was written since, its lines ending as terminals have it, in "\r\n".
  std::string written() const;

 private:
  std::string name_;
  int outside_, inside_;
};

}  // namespace rtcmend::test
