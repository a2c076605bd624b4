#include "board/line.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "board/firmware/protocol.h"

using namespace rtcmend;

// CRC-16/IBM-3740 of 3E 01 48, by a calculator of its own (Python's binascii.crc_hqx from FFFF).
TEST_CASE("a line is its start sign, pairs of digits, their CRC and a line feed") {
  const std::uint8_t bytes[] = {0x01, BOARD_HELLO};
  CHECK(board_line(BOARD_REQUEST, bytes) == ">0148E8C5\n");
}

TEST_CASE("a line that was sent is read again") {
  const std::uint8_t bytes[] = {0x07, 0x00, 0xFF, 0x10};
  std::string text = board_line(BOARD_REPLY, bytes);
  text.pop_back();
  const auto line = read_board_line(text);
  REQUIRE(line);
  CHECK(line->start == BOARD_REPLY);
  CHECK(line->bytes == std::vector<std::uint8_t>{0x07, 0x00, 0xFF, 0x10});
}

TEST_CASE("what stands before a start sign is no part of the line") {
  const std::uint8_t bytes[] = {0x01, BOARD_DONE};
  std::string text = "<0200" + board_line(BOARD_REPLY, bytes);
  text.pop_back();
  CHECK(read_board_line(text)->bytes == std::vector<std::uint8_t>{0x01, 0x00});
}

TEST_CASE("no line with one character changed, lost or added is read") {
  const std::uint8_t bytes[] = {0x07, 0x00, 0xFF, 0x10};
  std::string text = board_line(BOARD_REPLY, bytes);
  text.pop_back();
  for (std::size_t i = 0; i < text.size(); ++i) {
    for (int c = 0; c < 256; ++c) {
      std::string other = text;
      other[i] = static_cast<char>(c);
      if (other != text) CHECK_FALSE(read_board_line(other));
      std::string longer = text;
      longer.insert(i, 1, static_cast<char>(c));
      // What was added before the start sign is no part of the line.
      const auto read = read_board_line(longer);
      CHECK((!read || std::equal(read->bytes.begin(), read->bytes.end(), bytes)));
    }
    std::string shorter = text;
    shorter.erase(i, 1);
    CHECK_FALSE(read_board_line(shorter));
  }
}
