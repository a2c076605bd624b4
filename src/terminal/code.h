#pragma once

#include <string>

#include "render/card.h"
#include "terminal/ink.h"

namespace rtcmend {

/// The chip's bytes as codes for the camera of a phone, drawn with block characters: light modules
/// are the blocks. What is not sound is said above them.
std::string code_picture(const Card& card, const Ink& ink);

}  // namespace rtcmend
