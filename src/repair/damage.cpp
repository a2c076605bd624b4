#include <algorithm>
#include <array>
#include <bit>
#include <bitset>
#include <fmt/format.h>

#include "base/text.h"
#include "repair/probe.h"
#include "repair/repair.h"

namespace rtcmend {

namespace {

// How often each kind of damage is met among failed checks, by judgement: a bit flips as its cell
// fades, a byte is misread or mistyped, neighbours are swapped when bytes are copied by hand.
constexpr double any_bit = 0.5, any_byte = 0.25, any_neighbours = 0.08, any_pair = 0.02;
constexpr double other_values = 255 - 8;  // of a byte, in more than one bit

/// Bytes with bits of a password.
std::bitset<Image::large_size> concealed_bytes(const Layout& layout) {
  std::bitset<Image::large_size> concealed;
  for (const Field& field : layout.fields)
    if (field.meaning == Meaning::concealed)
      for (const Address at : addresses(field)) concealed.set(at);
  return concealed;
}

/// What the failing checks rest on, ascending.
Addresses tied_addresses(const Trouble& trouble) {
  Addresses all;
  for (const Check* check : trouble.failing)
    for (const Addresses& some : {covered_addresses(*check), stored_addresses(*check)})
      all.insert(all.end(), some.begin(), some.end());
  std::sort(all.begin(), all.end());
  all.erase(std::unique(all.begin(), all.end()), all.end());
  return all;
}

struct Search {
  const Image& image;
  std::vector<Probe> probes;
  Addresses open;   ///< bytes that may be tried
  double tied = 0;  ///< how many bytes might be damaged, tried or not
  std::vector<Repair> found{};

  bool any_holds(std::span<const Patch> patches) const {
    return std::any_of(probes.begin(), probes.end(),
                       [=](const Probe& probe) { return probe.holds_with(patches); });
  }
  std::bitset<256> values(Address at) const;

  void add_bit(Address at, unsigned bit);
  void add_byte(Address at, std::uint8_t to);
  void try_bits();
  void try_bytes();
  void try_swap(Address first, Address second);
  void try_swaps();
};

/// Those of a byte with which a check would hold.
std::bitset<256> Search::values(Address at) const {
  std::bitset<256> all;
  for (const Probe& probe : probes)
    for (const std::uint8_t value : probe.values(at)) all.set(value);
  return all;
}

void Search::add_bit(Address at, unsigned bit) {
  const auto to = static_cast<std::uint8_t>(image[at] ^ (1U << bit));
  found.push_back({fmt::format("bit-{}-{}", hex2(at), bit),
                   fmt::format("Bit {} of {} flipped: it holds {} and should hold {}.", bit,
                               hex_prose(at), hex_prose(image[at]), hex_prose(to)),
                   {{at, image[at], to}},
                   any_bit / (8 * tied)});
}

void Search::add_byte(Address at, std::uint8_t to) {
  found.push_back({fmt::format("byte-{}-{}", hex2(at), hex2(to)),
                   fmt::format("Byte {} is wrong: it holds {} and should hold {}.", hex_prose(at),
                               hex_prose(image[at]), hex_prose(to)),
                   {{at, image[at], to}},
                   any_byte / (other_values * tied)});
}

void Search::try_bits() {
  for (const Address at : open)
    for (unsigned bit = 0; bit < 8; ++bit) {
      const auto to = static_cast<std::uint8_t>(image[at] ^ (1U << bit));
      if (any_holds(std::array{Patch{at, image[at], to}})) add_bit(at, bit);
    }
}

void Search::try_bytes() {
  for (const Address at : open) {
    const std::bitset<256> holding = values(at);
    if (holding.none()) continue;
    for (unsigned value = 0; value < holding.size(); ++value)
      if (holding[value] && std::popcount(image[at] ^ value) > 1)
        add_byte(at, static_cast<std::uint8_t>(value));
  }
}

void Search::try_swap(Address first, Address second) {
  const std::uint8_t a = image[first], b = image[second];
  if (a == b || !any_holds(std::array{Patch{first, a, b}, Patch{second, b, a}})) return;
  double prior = any_pair / (tied * (tied - 1) / 2);
  if (second == first + 1) prior += any_neighbours / (tied - 1);
  found.push_back({fmt::format("swap-{}-{}", hex2(first), hex2(second)),
                   fmt::format("{} and {} hold each other's byte: {} and {} are swapped.",
                               hex_prose(first), hex_prose(second), hex_prose(a), hex_prose(b)),
                   {{first, a, b}, {second, b, a}},
                   prior});
}

void Search::try_swaps() {
  for (auto first = open.begin(); first != open.end(); ++first)
    for (auto second = first + 1; second != open.end(); ++second) try_swap(*first, *second);
}

}  // namespace

std::vector<Repair> damage_repairs(const Image& image, const Layout& layout,
                                   const Trouble& trouble) {
  Search search{image, {}, {}};
  for (const Check* check : trouble.failing) search.probes.emplace_back(*check, image);
  const Addresses tied = tied_addresses(trouble);
  search.tied = static_cast<double>(tied.size());
  const auto concealed = concealed_bytes(layout);
  for (const Address at : tied)
    if (!concealed[at] && image.known(at)) search.open.push_back(at);
  search.try_bits();
  search.try_bytes();
  search.try_swaps();
  return std::move(search.found);
}

}  // namespace rtcmend
