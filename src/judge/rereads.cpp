#include <algorithm>
#include <bit>
#include <fmt/format.h>
#include <vector>

#include "base/text.h"
#include "chip/cautions.h"
#include "chip/clock.h"
#include "chip/registers.h"
#include "judge/health.h"
#include "judge/wires.h"

namespace rtcmend {

namespace {

constexpr std::uint8_t update_bit = 0x80;  // UIP of register A comes and goes (DS12885)

struct Unsteady {
  Address at;
  std::uint8_t bits;  ///< none where they are a password's: such a byte is told by its address
};

std::vector<Unsteady> unsteady_bytes(const Image& first, const std::vector<Image>& others,
                                     const Addresses& hidden) {
  std::vector<Unsteady> all;
  for (std::size_t i = 0; i < first.size(); ++i) {
    const auto at = static_cast<Address>(i);
    unsigned differ = 0;
    for (const Image& other : others)
      if (i < other.size() && first.known(at) && other.known(at)) differ |= first[at] ^ other[at];
    const auto bits = static_cast<std::uint8_t>(differ & steady_bits(at));
    if (bits == 0) continue;
    const bool told = !std::binary_search(hidden.begin(), hidden.end(), at);
    all.push_back({at, told ? bits : std::uint8_t{0}});
  }
  return all;
}

/// "bits 7 and 3".
std::string bits_text(std::uint8_t bits) {
  std::vector<std::string> numbers;
  for (int bit = 7; bit >= 0; --bit)
    if ((bits >> bit & 1) != 0) numbers.push_back(fmt::format("{}", bit));
  return (numbers.size() == 1 ? "bit " : "bits ") + join(numbers, " and ");
}

std::string each_byte(const std::vector<Unsteady>& bytes) {
  constexpr std::size_t most = 8;
  std::vector<std::string> parts;
  for (const Unsteady& byte : bytes) {
    if (parts.size() == most)
      return join(parts, ", ") + fmt::format(" and {} more", bytes.size() - most);
    parts.push_back(hex_prose(byte.at) + (byte.bits != 0 ? " in " + bits_text(byte.bits) : ""));
  }
  return join(parts, ", ");
}

std::uint8_t bits_of_all(const std::vector<Unsteady>& bytes) {
  unsigned bits = 0;
  for (const Unsteady& byte : bytes) bits |= byte.bits;
  return static_cast<std::uint8_t>(bits);
}

/// Address bits that are the same in every unsteady byte tell nothing when there are few bytes.
constexpr std::size_t few = 3;

std::string likely_cause(const std::vector<Unsteady>& bytes) {
  const std::uint8_t bits = bits_of_all(bytes);
  const auto told = std::count_if(bytes.begin(), bytes.end(),
                                  [](const Unsteady& byte) { return byte.bits != 0; });
  if (static_cast<std::size_t>(told) >= few && std::has_single_bit(bits))
    return fmt::format("Only data bit {} wavers: clean the contact and check the wire of {}.",
                       std::countr_zero(bits),
                       bus_pin(static_cast<unsigned>(std::countr_zero(bits))));
  if (bytes.size() < few)
    return "Few bytes waver: the cells themselves may be weak, as with a nearly flat cell.";
  return "Many bytes waver: check the supply and its 100 nF capacitor, the ground, the length of "
         "the cable, and read more slowly.";
}

}  // namespace

std::uint8_t steady_bits(Address at) {
  if (ticks(at) || at == reg::c) return 0;
  return at == reg::a ? static_cast<std::uint8_t>(~update_bit) : 0xFF;
}

std::vector<Finding> compare_reads(const Image& first, const std::vector<Image>& others,
                                   const Addresses& hidden) {
  const auto bytes = unsteady_bytes(first, others, hidden);
  if (bytes.empty()) return {};
  Addresses at;
  for (const Unsteady& byte : bytes) at.push_back(byte.at);
  return {{FindingKind::unstable_reads, at,
           fmt::format("{} dumps of the same chip differ where nothing ticks: {}.",
                       others.size() == 1 ? "Two" : std::to_string(others.size() + 1),
                       each_byte(bytes)),
           by_hand(likely_cause(bytes) + " Dump again until two dumps agree."),
           "reasoned; what ticks by DS12885"}};
}

}  // namespace rtcmend
