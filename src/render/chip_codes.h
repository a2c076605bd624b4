#pragma once

#include <string>
#include <vector>

#include "qr/qr_code.h"
#include "render/card.h"

namespace rtcmend {

/// One of the codes that a phone reads a chip's bytes from.
struct ChipCode {
  std::string caption;  ///< "Code 1 of 2, bytes 00h to 3Fh"
  QrCode code;
};

/// One code for 64 bytes, two for 128. Bytes of passwords are unknown in them.
std::vector<ChipCode> chip_codes(const Card& card);

/// What must be said above bytes that are to be copied, by a phone or by hand: that the image is
/// not sound, and which bytes are left out. Empty for a sound image that is whole.
std::vector<std::string> copying_warnings(const Card& card);

/// How rows are typed, and what becomes of a slip.
std::string about_rows(const Card& card);

/// What a code is, and how to read it back.
std::string about_codes(const Card& card);

}  // namespace rtcmend
