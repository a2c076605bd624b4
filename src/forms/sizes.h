#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/image.h"

namespace rtcmend {

/// A byte of a dump; nothing where the dump says that it is unknown.
using DumpByte = std::optional<std::uint8_t>;

/// True for 64 and 128 (a whole chip) and for 50 and 114: the RAM part alone, from 0Eh on, as
/// operating systems give it out (Linux-nvram).
bool is_dump_size(std::size_t bytes);

/// An image from bytes that come without addresses: their count says whether they start at 00h or
/// at 0Eh with the clock bytes unknown. Another count is refused at `where`.
Image image_by_count(const std::vector<DumpByte>& bytes, const std::string& where);

/// The smallest chip that holds this address.
std::size_t chip_size_for(std::size_t highest);

}  // namespace rtcmend
