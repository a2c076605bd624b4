#pragma once

#include "deliver/delivery.h"

namespace rtcmend::test {

/// An AT-class image of 64 bytes: one 1.44 MB drive, disk type 39, 640 + 384 KiB; its clock says
/// 1994-05-06 12:00:00, a Friday.
Parcel at_64();
/// The same with 128 bytes and a second sum.
Parcel at_128();
/// A CRC-class image. Emulators keep the century at 32h, where this class has the high byte of its
/// CRC; option bytes are chosen so that it comes out at 20h, a century.
Parcel crc_64();
/// An image of the class with a balance byte at 14h; no century.
Parcel balance_64();

}  // namespace rtcmend::test
