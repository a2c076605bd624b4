#pragma once

#include <cstdint>
#include <vector>

#include "base/image.h"

/// 64 bytes of which 00h-0Dh are given and the rest is 0.
inline rtcmend::Image clock_image(std::vector<std::uint8_t> first_fourteen) {
  first_fourteen.resize(rtcmend::Image::small_size, 0);
  return rtcmend::Image(first_fourteen);
}

/// 14 May 2031, 09:30:00, a Wednesday, in BCD and 24-hour mode, running.
inline rtcmend::Image usual_clock() {
  return clock_image({0x00, 0x00, 0x30, 0x00, 0x09, 0x00, 0x04, 0x14, 0x05, 0x31,  //
                      0x26, 0x02, 0x00, 0x80});
}

/// The usual clock with one byte changed.
inline rtcmend::Image usual_clock_with(rtcmend::Address at, std::uint8_t byte) {
  rtcmend::Image image = usual_clock();
  image.set(at, byte);
  return image;
}
