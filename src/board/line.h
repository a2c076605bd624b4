#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace rtcmend {

/// One line between the program and the board (firmware/protocol.h): who speaks, and what.
struct BoardLine {
  char start = 0;  ///< BOARD_REQUEST, BOARD_REPLY or BOARD_GREETING
  std::vector<std::uint8_t> bytes;
};

/// With its CRC and a line feed.
std::string board_line(char start, std::span<const std::uint8_t> bytes);

/// A line without its line feed; nothing when anything about it is wrong. What stands before its
/// start sign is left out: the rest of a line that was cut.
std::optional<BoardLine> read_board_line(std::string_view text);

}  // namespace rtcmend
