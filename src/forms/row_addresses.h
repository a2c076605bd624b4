#pragma once

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include "forms/listing_row.h"

namespace rtcmend {

// Whether the lines of a text begin with addresses, judged by all of them.

/// What most lines with a marked address have in front of it, as "Reg["; nothing when lines with
/// marked addresses are no more than the others.
std::optional<std::string_view> common_label(const std::vector<ListingLine>& lines);

/// True when the first words of the lines are addresses without a mark: longer than the others, as
/// dump programs print them, or climbing by steps alike.
bool has_bare_addresses(const std::vector<ListingLine>& lines);

/// The number of digits that most bare addresses have.
std::size_t common_width(const std::vector<ListingLine>& lines);

}  // namespace rtcmend
