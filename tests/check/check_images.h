#pragma once

#include <string>
#include <utility>
#include <vector>

#include "base/image.h"
#include "check/check.h"

/// 64 bytes: one 1.44 MB floppy, disk type 39, 640 + 384 KiB in 10h-19h, the rest 0, no check
/// stored. 10h-2Dh add up to 29Bh: 40 + F0 + 41 + 80 + 02 + 80 + 01 + 27.
inline rtcmend::Image unsealed_machine() {
  std::vector<std::uint8_t> bytes(64, 0x00);
  bytes[0x10] = 0x40;
  bytes[0x12] = 0xF0;
  bytes[0x14] = 0x41;
  bytes[0x15] = 0x80;
  bytes[0x16] = 0x02;
  bytes[0x17] = 0x80;
  bytes[0x18] = 0x01;
  bytes[0x19] = 0x27;
  return rtcmend::Image(bytes);
}

/// The AT-class sum of 10h-2Dh, high byte at 2Eh (RBIL61, CMOS 2Eh).
inline rtcmend::Check at_sum() {
  return {"sum-10-2d",
          "RBIL61 CMOS 2Eh",
          rtcmend::SumRule{},
          {{{0x10, 0x2D}, {}}},
          0x2E,
          rtcmend::Order::high_first,
          {}};
}

/// CRC-16/IBM-3740 of 10h-31h, high byte at 32h: measured on real images, not published.
inline rtcmend::Check crc_check() {
  return {"crc-10-31",
          "measured on real images",
          rtcmend::CrcRule{rtcmend::crc_models::ibm_3740},
          {{{0x10, 0x31}, {}}},
          0x32,
          rtcmend::Order::high_first,
          {}};
}

/// An 8-bit sum with nothing special about it.
inline rtcmend::Check small_sum(std::string id, std::vector<rtcmend::Covered> over,
                                rtcmend::Address stored_at) {
  return {std::move(id),
          "",
          rtcmend::SumRule{8, 0, {}, {}},
          std::move(over),
          stored_at,
          rtcmend::Order::high_first,
          {}};
}
