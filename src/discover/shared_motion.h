#pragma once

#include "discover/dump_set.h"

namespace rtcmend {

/// Bytes that go up by one and the same step from each dump to the next, in four dumps or more:
/// they count the dumps, whatever was set in between.
Addresses find_counting(std::span<const DumpSet::Bytes> dumps, const std::vector<bool>& known);

/// Whether all that moves under a match moves as one: bytes in step say that something ticks, or
/// that a setting is stored twice, and never how a check is worked out. What moves by itself does
/// not count as moving.
bool is_shared_motion(const DumpSet& evidence, const Match& match);

}  // namespace rtcmend
