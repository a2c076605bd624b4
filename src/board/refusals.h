#pragma once

#include <cstdint>
#include <vector>

#include "base/error.h"
#include "board/link.h"

namespace rtcmend {

/// What a status of the board says, in plain words, with what to look at. `data`: what came with
/// it.
Error status_error(std::uint8_t status, const std::vector<std::uint8_t>& data);
[[noreturn]] void refuse_status(const BoardAnswer& answer);

/// Why the board cannot be spoken to.
Error trouble_error(LinkTrouble trouble, int version);
[[noreturn]] void refuse_trouble(LinkTrouble trouble, int version);

}  // namespace rtcmend
