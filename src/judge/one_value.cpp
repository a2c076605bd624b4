#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "chip/cautions.h"
#include "judge/credence.h"
#include "judge/misreads.h"

namespace rtcmend {

namespace {

constexpr std::size_t enough_bytes = 16;

std::vector<std::uint8_t> known_bytes(const Image& image, std::size_t from) {
  std::vector<std::uint8_t> bytes;
  for (std::size_t i = from; i < image.size(); ++i)
    if (const auto byte = image.at(static_cast<Address>(i))) bytes.push_back(*byte);
  return bytes;
}

bool all_equal(const std::vector<std::uint8_t>& bytes) {
  return std::all_of(bytes.begin(), bytes.end(),
                     [&](std::uint8_t byte) { return byte == bytes.front(); });
}

Finding all_ff() {
  return {
      FindingKind::dump_all_ff,
      {},
      "Every byte is FFh: nothing answered. A chip that is read at all shows 0 in most bits of "
      "registers C and D.",
      by_hand("Look for what keeps the chip from answering: no part in the socket, its chip select "
              "(pin 13), supply (pin 24) or read strobe (pin 17) not connected, or the wrong ports "
              "read. Then dump again."),
      "DS12885, registers C and D; pins by DS12885"};
}

Finding all_00() {
  return {
      FindingKind::dump_all_00,
      {},
      "Every byte is 00h: the bus was held low, or an empty file was saved.",
      by_hand(
          "Look for a part in the wrong way round, a missing ground or supply (pins 12 and 24), or "
          "a program that saved its buffer before it read. A chip with a flat cell still counts "
          "its clock while it has power. Then dump again."),
      "common practice, no source; pins by DS12885"};
}

Finding one_value(std::uint8_t value) {
  return {
      FindingKind::dump_one_value,
      {},
      fmt::format("Every byte is {}: one address was read over and over, or the bus floats.",
                  hex_prose(value)),
      by_hand(
          "Look for an address strobe that does not reach the chip (AS, pin 14), or a program that "
          "does not write the address before each read. Then dump again."),
      "common practice, no source; pins by DS12885"};
}

}  // namespace

std::optional<Finding> one_value_finding(const Image& image) {
  const auto bytes = known_bytes(image, 0);
  if (bytes.size() < enough_bytes || !all_equal(bytes)) return std::nullopt;
  if (bytes.front() == 0xFF) return all_ff();
  if (bytes.front() == 0x00) return all_00();
  return one_value(bytes.front());
}

std::optional<Finding> cleared_finding(const Image& image) {
  const auto ram = known_bytes(image, Image::ram_start);
  if (ram.size() < enough_bytes || ram.front() != 0xFF || !all_equal(ram)) return std::nullopt;
  // Noise never gets there; see credence.h.
  if (chip_credence(image) < 0) return std::nullopt;
  return Finding{FindingKind::ram_cleared,
                 {},
                 "Every RAM byte is FFh while the clock makes sense: this is what the RAM-clear "
                 "input of some parts leaves behind.",
                 by_hand("On a part with RAM clear, see that the board does not ground that pin: "
                         "it would wipe the RAM at every power-off. Then write a sound image."),
                 "DS12885, RCLR; the pattern is reasoned from it"};
}

}  // namespace rtcmend
