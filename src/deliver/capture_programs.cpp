#include <array>

#include "deliver/carriers.h"
#include "deliver/disk.h"
#include "deliver/program.h"

namespace rtcmend {

namespace {

std::string capture_program(std::string_view name, const CaptureOrder& order) {
  Program program(name);
  program.fill_byte("size", static_cast<std::uint8_t>(order.size.value_or(0)));
  return {program.bytes().begin(), program.bytes().end()};
}

}  // namespace

Delivery floppy_capture(const CaptureOrder& order) {
  const std::array files{
      DiskFile{"RTCMEND SYS", capture_program("capture_floppy", order)},
      DiskFile{"ROWS    COM", capture_program("capture_dos", order)},
  };
  Delivery delivery;
  delivery.content = make_boot_disk(order.disk, files);
  return delivery;
}

Delivery dos_capture(const CaptureOrder& order) {
  Delivery delivery;
  delivery.content = capture_program("capture_dos", order);
  return delivery;
}

}  // namespace rtcmend
