#pragma once

#include <cstdint>

#include "layout/field.h"

namespace rtcmend {

/// Whether the number is one that stands in the field's escape byte.
bool in_escape(const Field& field, std::int64_t number);

/// The number that a field's own bits hold for a legal value. For fields of numbers, choices and
/// flags.
std::uint64_t code_of(const Field& field, const Value& value);

}  // namespace rtcmend
