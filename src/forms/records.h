#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/image.h"

namespace rtcmend {

/// The hex digits of a record as bytes. Refuses, with the place, another character and an odd
/// number of digits.
std::vector<std::uint8_t> record_bytes(std::string_view digits, const std::string& here);

/// The low eight bits of the sum, which the check bytes of both record forms are made from.
std::uint8_t sum_of(std::span<const std::uint8_t> bytes);

/// Known bytes that follow one another, at most 16, all within one row of 16.
struct RecordRun {
  Address first;
  std::vector<std::uint8_t> bytes;
};

/// The known bytes as runs, ascending. Refuses an image of which nothing is known; `form` is for
/// the message.
std::vector<RecordRun> known_runs(const Image& image, std::string_view form);

/// Bytes as upper-case hex digits without blanks.
std::string digits_of(std::span<const std::uint8_t> bytes);

}  // namespace rtcmend
