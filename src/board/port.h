#pragma once

#include <chrono>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace rtcmend {

/// A serial port, open for this program alone, at the board's speed, eight bits as they are. To
/// open it resets most boards; to close it does not.
class Port {
 public:
  /// Throws Error (file_system) that says why not: not there, no permission, taken by another
  /// program.
  static std::unique_ptr<Port> open(const std::string& name);

  virtual ~Port() = default;
  /// What has come, after waiting for it up to `most`; nothing when nothing came. Throws Error
  /// (file_system) when the port is gone.
  virtual std::string read(std::chrono::milliseconds most) = 0;
  /// Throws Error (file_system).
  virtual void write(std::string_view bytes) = 0;
};

/// The names of ports at which a board may be.
std::vector<std::string> likely_ports();

}  // namespace rtcmend
