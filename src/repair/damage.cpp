#include <algorithm>
#include <array>
#include <bit>
#include <bitset>
#include <fmt/format.h>

#include "base/text.h"
#include "layout/privacy.h"
#include "repair/probe.h"
#include "repair/repair.h"

namespace rtcmend {

namespace {

constexpr double other_values = 255 - 8;  // of a byte, in more than one bit

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

/// Whether the byte above or below, in the rows of a listing, is the same: a hand may have copied
/// it from there.
bool as_in_next_row(const Image& image, Address at) {
  const auto same = [&](int other) {
    return other >= 0 && other < static_cast<int>(image.size()) &&
           image.at(static_cast<Address>(other)) == image.at(at);
  };
  constexpr int row = bytes_in_a_row;
  return same(at - row) || same(at + row);
}

struct Search {
  const Image& image;
  const Reach& reach;
  Origin origin;
  std::vector<Probe> probes{};
  std::vector<Repair> found{};

  double share(Mishap cause) const { return share_of(cause, origin); }
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
                   share(Mishap::one_bit) / (8 * reach.tied)});
}

void Search::add_byte(Address at, std::uint8_t to) {
  const double each = reach.tied * other_values;
  double prior = share(Mishap::one_byte) / each;
  // What stood there may be anything; what came to stand there is certain, from above or below.
  if (as_in_next_row(image, at)) prior += share(Mishap::row_slipped) / (2 * reach.tied);
  found.push_back({fmt::format("byte-{}-{}", hex2(at), hex2(to)),
                   fmt::format("Byte {} is wrong: it holds {} and should hold {}.", hex_prose(at),
                               hex_prose(image[at]), hex_prose(to)),
                   {{at, image[at], to}},
                   prior});
}

void Search::try_bits() {
  for (const Address at : reach.open)
    for (unsigned bit = 0; bit < 8; ++bit) {
      const auto to = static_cast<std::uint8_t>(image[at] ^ (1U << bit));
      if (any_holds(std::array{Patch{at, image[at], to}})) add_bit(at, bit);
    }
}

void Search::try_bytes() {
  for (const Address at : reach.open) {
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
  double prior = share(Mishap::bytes_exchanged) / (reach.tied * (reach.tied - 1) / 2);
  if (second == first + 1) prior += share(Mishap::neighbours_exchanged) / (reach.tied - 1);
  found.push_back({fmt::format("swap-{}-{}", hex2(first), hex2(second)),
                   fmt::format("{} and {} hold each other's byte: {} and {} are swapped.",
                               hex_prose(first), hex_prose(second), hex_prose(a), hex_prose(b)),
                   {{first, a, b}, {second, b, a}},
                   prior});
}

void Search::try_swaps() {
  for (auto first = reach.open.begin(); first != reach.open.end(); ++first)
    for (auto second = first + 1; second != reach.open.end(); ++second) try_swap(*first, *second);
}

}  // namespace

Reach reach_of(const Image& image, const Layout& layout, const Trouble& trouble) {
  Reach reach;
  const Addresses tied = tied_addresses(trouble);
  reach.tied = static_cast<double>(tied.size());
  const Addresses passwords = private_bytes(layout);
  for (const Address at : tied)
    if (image.known(at) && !std::binary_search(passwords.begin(), passwords.end(), at))
      reach.open.push_back(at);
  return reach;
}

std::vector<Repair> damage_repairs(const Image& image, const Reach& reach, const Trouble& trouble,
                                   Origin origin) {
  Search search{image, reach, origin};
  for (const Check* check : trouble.failing) search.probes.emplace_back(*check, image);
  search.try_bits();
  search.try_bytes();
  search.try_swaps();
  return std::move(search.found);
}

}  // namespace rtcmend
