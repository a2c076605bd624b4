#pragma once

#include <string>
#include <string_view>

namespace rtcmend {

/// What a piece of text is to the reader. Every tone says something that the words say as well:
/// colour only adds.
/// A picture is light on dark, whatever the terminal's own colours are.
enum class Tone { strong, good, bad, doubtful, quiet, picture };

/// Puts text in colour, or leaves it as it is.
class Ink {
 public:
  explicit Ink(bool in_colour = false) : in_colour_(in_colour) {}
  /// `text` as it stands; pad it before, for the colour codes have a length too.
  std::string operator()(Tone tone, std::string_view text) const;

 private:
  bool in_colour_;
};

}  // namespace rtcmend
