#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "layout/layout.h"

namespace rtcmend {

/// Bits of a byte that hold a field: all of them for its escape byte.
std::uint8_t bits_of(const Field& field, Address at);

/// The fields and checks that these bits of a byte belong to, by their ids.
std::vector<std::string> owners(const Layout& layout, Address at, std::uint8_t bits);

}  // namespace rtcmend
