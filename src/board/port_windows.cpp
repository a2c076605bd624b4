#include <fmt/format.h>
#include <windows.h>

#include "base/error.h"
#include "board/port.h"

namespace rtcmend {

namespace {

constexpr DWORD speed = 38400;

[[noreturn]] void refuse_port(const std::string& name, DWORD reason) {
  switch (reason) {
    case ERROR_FILE_NOT_FOUND:
    case ERROR_PATH_NOT_FOUND:
      throw Error(Refusal::file_system, name, "there is no such port",
                  "plug the board in, and look in the device manager for its COM number");
    case ERROR_ACCESS_DENIED:
    case ERROR_SHARING_VIOLATION:
      throw Error(Refusal::file_system, name, "another program uses this port",
                  "close the terminal program or the board's editor that has it open");
    default:
      throw Error(Refusal::file_system, name, fmt::format("the port fails (error {})", reason),
                  "look at the USB cable, and begin again");
  }
}

class WindowsPort : public Port {
 public:
  explicit WindowsPort(const std::string& name) : name_(name) {
    // Ports from COM10 on are reached by this way of writing alone.
    const std::string path = name.starts_with("\\\\") ? name : "\\\\.\\" + name;
    handle_ = CreateFileA(path.c_str(), GENERIC_READ | GENERIC_WRITE, 0, nullptr, OPEN_EXISTING, 0,
                          nullptr);
    if (handle_ == INVALID_HANDLE_VALUE) refuse_port(name_, GetLastError());
    if (!set_up()) {
      const DWORD reason = GetLastError();
      CloseHandle(handle_);
      refuse_port(name_, reason);
    }
  }
  ~WindowsPort() override {
    FlushFileBuffers(handle_);
    CloseHandle(handle_);
  }
  WindowsPort(const WindowsPort&) = delete;
  WindowsPort& operator=(const WindowsPort&) = delete;

  std::string read(std::chrono::milliseconds most) override {
    // Back at once with what is there, else with the first character, else after so long.
    COMMTIMEOUTS times{MAXDWORD, MAXDWORD, static_cast<DWORD>(most.count() + 1), 0, 2000};
    SetCommTimeouts(handle_, &times);
    char bytes[512];
    DWORD count = 0;
    if (!ReadFile(handle_, bytes, sizeof bytes, &count, nullptr))
      throw Error(Refusal::file_system, name_, "the port is gone",
                  "look at the USB cable, and begin again: the work is void");
    return {bytes, count};
  }

  void write(std::string_view bytes) override {
    while (!bytes.empty()) {
      DWORD count = 0;
      if (!WriteFile(handle_, bytes.data(), static_cast<DWORD>(bytes.size()), &count, nullptr) ||
          count == 0)
        refuse_port(name_, GetLastError());
      bytes.remove_prefix(count);
    }
  }

 private:
  bool set_up() const {
    DCB how{};
    how.DCBlength = sizeof how;
    if (!GetCommState(handle_, &how)) return false;
    how.BaudRate = speed;
    how.fBinary = TRUE;
    how.fParity = FALSE;
    how.fOutxCtsFlow = how.fOutxDsrFlow = how.fDsrSensitivity = how.fOutX = how.fInX = FALSE;
    how.fNull = how.fAbortOnError = FALSE;
    how.fDtrControl = DTR_CONTROL_ENABLE;
    how.fRtsControl = RTS_CONTROL_ENABLE;
    how.ByteSize = 8;
    how.Parity = NOPARITY;
    how.StopBits = ONESTOPBIT;
    return SetCommState(handle_, &how) != 0;
  }

  std::string name_;
  HANDLE handle_ = INVALID_HANDLE_VALUE;
};

}  // namespace

std::unique_ptr<Port> Port::open(const std::string& name) {
  return std::make_unique<WindowsPort>(name);
}

std::vector<std::string> likely_ports() {
  std::vector<std::string> ports;
  char target[512];
  for (int i = 1; i <= 64; ++i)
    if (const std::string name = fmt::format("COM{}", i);
        QueryDosDeviceA(name.c_str(), target, sizeof target) != 0)
      ports.push_back(name);
  return ports;
}

}  // namespace rtcmend
