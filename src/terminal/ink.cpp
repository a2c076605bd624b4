#include "terminal/ink.h"

#include <fmt/format.h>

namespace rtcmend {

namespace {

/// ECMA-48 "select graphic rendition" parameters.
std::string_view code(Tone tone) {
  switch (tone) {
    case Tone::strong:
      return "1";
    case Tone::good:
      return "32";
    case Tone::bad:
      return "1;31";
    case Tone::doubtful:
      return "33";
    case Tone::picture:
      return "97;40";
    case Tone::quiet:
      break;
  }
  return "2";
}

}  // namespace

std::string Ink::operator()(Tone tone, std::string_view text) const {
  if (!in_colour_ || text.empty()) return std::string(text);
  return fmt::format("\x1b[{}m{}\x1b[0m", code(tone), text);
}

}  // namespace rtcmend
