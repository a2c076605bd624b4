#pragma once

#include <functional>
#include <string>

#include "support/code_readers.h"

namespace rtcmend::test {

/// Takes pictures until a reader finds a code in one; fails the test when none comes. Returns the
/// picture and what the reader said.
struct TakenPicture {
  Picture picture;
  std::string text;
};
TakenPicture take_until_read(const std::function<Picture()>& take, CodeReader reader);

/// A picture in the binary form of Netpbm, grey (P5) or colour (P6, whose green is taken).
Picture from_netpbm(const std::string& content);

}  // namespace rtcmend::test
