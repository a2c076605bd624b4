#include "board/line.h"

#include <fmt/format.h>

#include "board/firmware/protocol.h"
#include "check/crc.h"

namespace rtcmend {

namespace {

constexpr std::string_view starts{"><!"};
static_assert(starts[0] == BOARD_REQUEST && starts[1] == BOARD_REPLY &&
              starts[2] == BOARD_GREETING);

std::uint16_t crc_of(char start, std::span<const std::uint8_t> bytes) {
  std::vector<std::uint8_t> all{static_cast<std::uint8_t>(start)};
  all.insert(all.end(), bytes.begin(), bytes.end());
  return crc_bitwise(crc_models::ibm_3740, all);
}

std::optional<std::uint8_t> digit(char character) {
  if (character >= '0' && character <= '9') return static_cast<std::uint8_t>(character - '0');
  if (character >= 'A' && character <= 'F') return static_cast<std::uint8_t>(character - 'A' + 10);
  return std::nullopt;
}

/// Pairs of digits; nothing when one is none.
std::optional<std::vector<std::uint8_t>> pairs(std::string_view text) {
  std::vector<std::uint8_t> bytes;
  if (text.size() % 2 != 0) return std::nullopt;
  for (std::size_t i = 0; i < text.size(); i += 2) {
    const auto high = digit(text[i]), low = digit(text[i + 1]);
    if (!high || !low) return std::nullopt;
    bytes.push_back(static_cast<std::uint8_t>(*high << 4 | *low));
  }
  return bytes;
}

}  // namespace

std::string board_line(char start, std::span<const std::uint8_t> bytes) {
  std::string text(1, start);
  for (const std::uint8_t byte : bytes) text += fmt::format("{:02X}", byte);
  return text + fmt::format("{:04X}\n", crc_of(start, bytes));
}

std::optional<BoardLine> read_board_line(std::string_view text) {
  const auto at = text.find_last_of(starts);
  if (at == std::string_view::npos) return std::nullopt;
  auto bytes = pairs(text.substr(at + 1));
  if (!bytes || bytes->size() < 4) return std::nullopt;
  const int stored = bytes->at(bytes->size() - 2) << 8 | bytes->back();
  bytes->resize(bytes->size() - 2);
  if (crc_of(text[at], *bytes) != stored) return std::nullopt;
  return BoardLine{text[at], std::move(*bytes)};
}

}  // namespace rtcmend
