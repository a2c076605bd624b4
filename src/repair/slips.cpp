#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>

#include "base/look_alikes.h"
#include "base/text.h"
#include "repair/probe.h"
#include "repair/repair.h"

namespace rtcmend {

namespace {

/// One slip undone.
struct Slip {
  std::string name;  ///< "28-80": where, and what should stand there
  std::string text;
  std::vector<Patch> patches;
  double share = 0;  ///< among all dumps with a single slip
};

double of_hand(Mishap cause) {
  return share_of(cause, Origin::hand);
}

std::uint8_t with_digit(std::uint8_t byte, unsigned shift, unsigned digit) {
  return static_cast<std::uint8_t>((byte & ~(0xFU << shift)) | digit << shift);
}

std::uint8_t turned(std::uint8_t byte) {
  return static_cast<std::uint8_t>(byte << 4 | byte >> 4);
}

class Slips {
 public:
  Slips(const Image& image, const Reach& reach) : image_(image), reach_(reach) {
    for (const Address at : reach.open) {
      add_digits(at);
      add_turned(at);
      const auto next = static_cast<Address>(at + 1);
      if (next % bytes_in_a_row != 0 &&
          std::binary_search(reach.open.begin(), reach.open.end(), next))
        add_neighbours(at, next);
    }
  }
  std::vector<Slip> all() && { return std::move(all_); }

 private:
  void add_byte(Address at, std::uint8_t meant, double share) {
    all_.push_back(
        {hex2(at) + "-" + hex2(meant),
         fmt::format("{} was written {} for {}", hex_prose(at), hex2(image_[at]), hex2(meant)),
         {{at, image_[at], meant}},
         share});
  }
  void add_digits(Address at) {
    for (const unsigned shift : {4U, 0U}) {
      const unsigned found = (image_[at] >> shift) & 0xFU;
      for (unsigned digit = 0; digit <= 0xF; ++digit) {
        if (digit == found) continue;
        const unsigned alike = count_look_alikes(digit);
        const Mishap cause = look_alike(digit, found) ? Mishap::look_alike : Mishap::other_digit;
        const unsigned others = cause == Mishap::look_alike ? alike : 15;
        add_byte(at, with_digit(image_[at], shift, digit),
                 of_hand(cause) / (2 * reach_.tied * others));
      }
    }
  }
  void add_turned(Address at) {
    const std::uint8_t meant = turned(image_[at]);
    if (meant != image_[at]) add_byte(at, meant, of_hand(Mishap::digits_exchanged) / reach_.tied);
  }
  void add_pair(Address at, Address next, std::uint8_t left, std::uint8_t right, double share) {
    if (left == image_[at] || right == image_[next]) return;
    all_.push_back({hex2(at) + "-" + hex2(left) + hex2(right),
                    fmt::format("{} {} at {} was written {} {}", hex2(left), hex2(right),
                                hex_prose(at), hex2(image_[at]), hex2(image_[next])),
                    {{at, image_[at], left}, {next, image_[next], right}},
                    share});
  }
  void add_neighbours(Address at, Address next) {
    const std::uint8_t left = image_[at], right = image_[next];
    add_pair(at, next, right, left, of_hand(Mishap::neighbours_exchanged) / reach_.tied);
    add_pair(at, next, with_digit(left, 0, right >> 4), with_digit(right, 4, left & 0xFU),
             of_hand(Mishap::digits_across) / reach_.tied);
  }

  const Image& image_;
  const Reach& reach_;
  std::vector<Slip> all_;
};

double share_of_one_slip() {
  return of_hand(Mishap::look_alike) + of_hand(Mishap::other_digit) +
         of_hand(Mishap::digits_exchanged) + of_hand(Mishap::neighbours_exchanged) +
         of_hand(Mishap::digits_across);
}

bool touches(const Slip& a, const Slip& b) {
  return std::any_of(a.patches.begin(), a.patches.end(), [&](const Patch& one) {
    return std::any_of(b.patches.begin(), b.patches.end(),
                       [&](const Patch& other) { return one.at == other.at; });
  });
}

/// Two slips that close a check's gap together.
struct Pair {
  const Slip* first;
  const Slip* second;
  double bits;  ///< log2 of its prior times its gain
};

/// What each slip moves the gap by; two that add up to it are found by looking the second one up.
class PairSearch {
 public:
  PairSearch(const std::vector<Slip>& slips, const Gain& gain) : slips_(slips) {
    for (const Slip& slip : slips) {
      gains_.push_back(gain(slip.patches));
      worth_.push_back(std::log2(slip.share) + gains_.back());
    }
  }

  void look(const Probe& probe, std::vector<Pair>& found) const {
    const Discrepancy& gap = probe.gap();
    std::vector<std::pair<std::uint16_t, std::uint32_t>> moves;
    for (std::size_t i = 0; i < slips_.size(); ++i) {
      std::uint16_t moved = gap.now();
      bool decides = false;
      for (const auto& [at, from, to] : slips_[i].patches) {
        decides = decides || probe.decides(at);
        moved = gap.moved(moved, at, from, to);
      }
      const std::uint16_t move = gap.parted(moved, gap.now());
      // Neighbours exchanged leave a sum as it is: they count where something else speaks for them.
      if (!decides && (move != 0 || gains_[i] > 0))
        moves.emplace_back(move, static_cast<std::uint32_t>(i));
    }
    std::sort(moves.begin(), moves.end());
    for (const auto& [move, i] : moves) {
      const std::uint16_t wanted = gap.parted(0, gap.joined(gap.now(), move));
      auto other = std::lower_bound(moves.begin(), moves.end(), std::pair{wanted, i + 1});
      for (; other != moves.end() && other->first == wanted; ++other) add(i, other->second, found);
    }
  }

 private:
  void add(std::uint32_t i, std::uint32_t k, std::vector<Pair>& found) const {
    if (touches(slips_[i], slips_[k])) return;
    const double of_two =
        of_hand(Mishap::two_slips) * 2 / (share_of_one_slip() * share_of_one_slip());
    found.push_back({&slips_[i], &slips_[k], std::log2(of_two) + worth_[i] + worth_[k]});
  }

  const std::vector<Slip>& slips_;
  std::vector<double> gains_, worth_;
};

Repair repair_of(const Pair& pair) {
  const Slip& a = *pair.first;
  const Slip& b = *pair.second;
  const Slip& low = a.patches.front().at < b.patches.front().at ? a : b;
  const Slip& high = &low == &a ? b : a;
  std::vector<Patch> patches = low.patches;
  patches.insert(patches.end(), high.patches.begin(), high.patches.end());
  const double of_two =
      of_hand(Mishap::two_slips) * 2 / (share_of_one_slip() * share_of_one_slip());
  return {"slips-" + low.name + "+" + high.name,
          "Two slips: " + low.text + ", and " + high.text + ".", std::move(patches),
          of_two * a.share * b.share};
}

}  // namespace

std::vector<Repair> slip_repairs(const Image& image, const Reach& reach, const Trouble& trouble,
                                 const Gain& gain) {
  constexpr std::size_t most_pairs = 60;
  std::vector<Probe> probes;
  for (const Check* check : trouble.failing) probes.emplace_back(*check, image);
  const std::vector<Slip> slips = Slips(image, reach).all();
  std::vector<Repair> repairs;
  for (const Slip& slip : slips)
    if (std::any_of(probes.begin(), probes.end(),
                    [&](const Probe& probe) { return probe.holds_with(slip.patches); }))
      repairs.push_back(
          {"slip-" + slip.name, "A slip: " + slip.text + ".", slip.patches, slip.share});
  std::vector<Pair> pairs;
  const PairSearch search(slips, gain);
  for (const Probe& probe : probes) search.look(probe, pairs);
  std::stable_sort(pairs.begin(), pairs.end(),
                   [](const Pair& a, const Pair& b) { return a.bits > b.bits; });
  if (pairs.size() > most_pairs) pairs.resize(most_pairs);
  for (const Pair& pair : pairs) repairs.push_back(repair_of(pair));
  return repairs;
}

}  // namespace rtcmend
