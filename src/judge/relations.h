#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "base/image.h"
#include "layout/codec.h"
#include "layout/layout.h"

namespace rtcmend {

/// What a field that follows others should say, by what those others say now. Nothing when it
/// follows none, or when one of them is unknown, not in use or without a meaning.
std::optional<Value> expected_value(const Field& follower, const Layout& layout,
                                    const Image& image);

/// What a field that follows one other as the same shall be for a value of that one: the nearest of
/// its own steps that is not above it.
Value followed_value(const Field& follower, const Value& leader);

/// Whether a field that is known and in use says something else than that.
bool breaks_relation(const FieldReading& reading, const Layout& layout, const Image& image);

/// Whether a check covers every byte of a field, whatever its conditions.
bool covers(const Check& check, const Field& field);

/// Those checks of the layout, by number, that cover both a copy and its original: while one holds,
/// only the firmware itself can have made them differ. None for what is no copy.
std::vector<std::size_t> checks_proving(const Field& copy, const Layout& layout);

/// What reading a field rests on: its bits, its escape byte, its condition; and what it follows.
/// Some may come twice.
std::vector<BitSlice> resting_bits(const Field& field, const Layout& layout);

}  // namespace rtcmend
