#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <fmt/format.h>
#include <poll.h>
#include <sys/ioctl.h>
#include <termios.h>
#include <unistd.h>

#include "base/error.h"
#include "board/port.h"

namespace rtcmend {

namespace {

constexpr speed_t speed = B38400;

[[noreturn]] void refuse_port(const std::string& name, int reason) {
  switch (reason) {
    case ENOENT:
      throw Error(Refusal::file_system, name, "there is no such port",
                  "plug the board in, and look under /dev for ttyUSB or ttyACM");
    case EACCES:
    case EPERM:
      throw Error(
          Refusal::file_system, name, "you may not use this port",
          "become a member of the group dialout (as root: usermod -aG dialout NAME), and log "
          "in again");
    case EBUSY:
    case EAGAIN:
      throw Error(Refusal::file_system, name, "another program uses this port",
                  "close the terminal program or the board's editor that has it open");
    case ENOTTY:
      throw Error(Refusal::input, name, "this is no serial port", "ttyUSB0 or ttyACM0 under /dev");
    default:
      throw Error(Refusal::file_system, name, std::strerror(reason),
                  "look at the USB cable, and begin again");
  }
}

class PosixPort : public Port {
 public:
  explicit PosixPort(const std::string& name)
      : name_(name), descriptor_(::open(name.c_str(), O_RDWR | O_NOCTTY | O_NONBLOCK | O_CLOEXEC)) {
    if (descriptor_ < 0) refuse_port(name_, errno);
    if (const int reason = set_up(); reason != 0) {
      ::close(descriptor_);
      refuse_port(name_, reason);
    }
  }
  ~PosixPort() override {
    tcdrain(descriptor_);
    ::close(descriptor_);
  }
  PosixPort(const PosixPort&) = delete;
  PosixPort& operator=(const PosixPort&) = delete;

  std::string read(std::chrono::milliseconds most) override {
    pollfd waiting{descriptor_, POLLIN, 0};
    const int ready = ::poll(&waiting, 1, static_cast<int>(most.count()));
    if (ready < 0 && errno == EINTR) return {};
    if (ready < 0) refuse_port(name_, errno);
    if (ready == 0) return {};
    char bytes[512];
    const auto count = ::read(descriptor_, bytes, sizeof bytes);
    if (count > 0) return {bytes, static_cast<std::size_t>(count)};
    if (count < 0 && (errno == EAGAIN || errno == EINTR)) return {};
    // The end of a port, or an error: it was unplugged.
    throw Error(Refusal::file_system, name_, "the port is gone",
                "look at the USB cable, and begin again: the work is void");
  }

  void write(std::string_view bytes) override {
    while (!bytes.empty()) {
      const auto count = ::write(descriptor_, bytes.data(), bytes.size());
      if (count >= 0) {
        bytes.remove_prefix(static_cast<std::size_t>(count));
      } else if (errno == EAGAIN) {
        pollfd waiting{descriptor_, POLLOUT, 0};
        if (::poll(&waiting, 1, 1000) == 0) refuse_port(name_, EIO);
      } else if (errno != EINTR) {
        refuse_port(name_, errno);
      }
    }
  }

 private:
  /// 0, or why not.
  int set_up() const {
    termios how{};
    if (tcgetattr(descriptor_, &how) != 0) return errno;
    if (ioctl(descriptor_, TIOCEXCL) != 0) return errno;
    cfmakeraw(&how);
    how.c_cflag &= ~static_cast<tcflag_t>(HUPCL | CSTOPB | CRTSCTS);
    how.c_cflag |= CLOCAL | CREAD;
    how.c_cc[VMIN] = 0;
    how.c_cc[VTIME] = 0;
    cfsetispeed(&how, speed);
    cfsetospeed(&how, speed);
    if (tcsetattr(descriptor_, TCSANOW, &how) != 0) return errno;
    // Low and up again resets a board whose line was high already; a pseudo-terminal has no such
    // line, which does no harm.
    int lines = TIOCM_DTR | TIOCM_RTS;
    ioctl(descriptor_, TIOCMBIC, &lines);
    ioctl(descriptor_, TIOCMBIS, &lines);
    return 0;
  }

  std::string name_;
  int descriptor_;
};

}  // namespace

std::unique_ptr<Port> Port::open(const std::string& name) {
  return std::make_unique<PosixPort>(name);
}

std::vector<std::string> likely_ports() {
  std::vector<std::string> ports;
  for (const char* kind : {"/dev/ttyUSB", "/dev/ttyACM"})
    for (int i = 0; i < 10; ++i)
      if (std::string name = fmt::format("{}{}", kind, i); access(name.c_str(), F_OK) == 0)
        ports.push_back(std::move(name));
  return ports;
}

}  // namespace rtcmend
