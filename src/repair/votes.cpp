#include "repair/votes.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fmt/format.h>

#include "base/text.h"
#include "judge/health.h"
#include "repair/probe.h"

namespace rtcmend {

namespace {

// By judgement: a contact or a weak cell gives one bit in 200 wrongly.
constexpr double odds_of_right = 199;
constexpr unsigned most_open = 12;  ///< of what no majority decides: each doubles the work

/// A bit on which the dumps do not agree.
struct OpenBit {
  Address at;
  std::uint8_t mask;
  double odds;  ///< for what the most of them have; 1 = as many have the other
};

struct Count {
  int ones = 0, all = 0;
};

Count count_bit(const Image& image, const std::vector<Image>& again, Address at, unsigned mask) {
  Count count{(image[at] & mask) != 0 ? 1 : 0, 1};
  for (const Image& other : again) {
    if (at >= other.size() || !other.known(at)) continue;
    count.ones += (other[at] & mask) != 0 ? 1 : 0;
    ++count.all;
  }
  return count;
}

class Ballot {
 public:
  Ballot(const Image& image, const Layout& layout, const std::vector<Image>& again)
      : image_(image), elected_(image) {
    for (std::size_t i = 0; i < image.size(); ++i) {
      const auto at = static_cast<Address>(i);
      if (!image.known(at) || layout.is_private(at)) continue;
      for (unsigned bit = 0; bit < 8; ++bit)
        if ((steady_bits(at) >> bit & 1U) != 0)
          elect(at, static_cast<std::uint8_t>(1U << bit), again);
    }
  }

  std::vector<Repair> of(const Trouble& trouble) {
    for (const auto* checks : {&trouble.failing, &trouble.holding})
      for (const Check* check : *checks) probes_.emplace_back(*check, elected_);
    if (tied_.size() > most_open) return {};
    for (std::size_t choice = 0; choice < std::size_t{1} << tied_.size(); ++choice) {
      Image image = elected_;
      for (std::size_t i = 0; i < tied_.size(); ++i)
        if ((choice >> i & 1U) != 0) flip(tied_[i], image);
      take(image, 1);
      outvote(image);
    }
    return std::move(found_);
  }

 private:
  static void flip(const OpenBit& bit, Image& image) {
    image.set(bit.at, static_cast<std::uint8_t>(image[bit.at] ^ bit.mask));
  }
  void elect(Address at, std::uint8_t mask, const std::vector<Image>& again) {
    const auto [ones, all] = count_bit(image_, again, at, mask);
    if (ones == 0 || ones == all) return;
    const int ahead = 2 * ones - all;
    if (ahead == 0) {
      tied_.push_back({at, mask, 1});
      return;
    }
    if (((elected_[at] & mask) != 0) != (ahead > 0)) flip({at, mask, 1}, elected_);
    outvoted_.push_back({at, mask, std::pow(odds_of_right, std::abs(ahead))});
  }
  /// Up to two bits in which the most of the dumps are wrong.
  void outvote(const Image& image) {
    for (std::size_t i = 0; i < outvoted_.size(); ++i) {
      Image one = image;
      flip(outvoted_[i], one);
      take(one, 1 / outvoted_[i].odds);
      for (std::size_t k = i + 1; k < outvoted_.size(); ++k) {
        Image two = one;
        flip(outvoted_[k], two);
        take(two, 1 / outvoted_[i].odds / outvoted_[k].odds);
      }
    }
  }
  void take(const Image& image, double prior) {
    const std::vector<Patch> moved = patches_between(elected_, image);
    for (const Probe& probe : probes_)
      if (!probe.holds_with(moved)) return;
    std::vector<Patch> patches = patches_between(image_, image);
    if (patches.empty()) return;
    std::vector<std::string> names, words;
    for (const auto& [at, from, to] : patches) {
      names.push_back(hex2(at) + "-" + hex2(to));
      words.push_back(fmt::format("{} as {}", hex_prose(at), hex_prose(to)));
    }
    found_.push_back({"vote-" + join(names, "+"),
                      "The dumps do not agree, and with " + join(words, ", ") +
                          ", as another of them has it, the checks hold.",
                      std::move(patches), prior});
  }

  const Image& image_;
  Image elected_;
  std::vector<OpenBit> tied_, outvoted_;
  std::vector<Probe> probes_;
  std::vector<Repair> found_;
};

}  // namespace

namespace {

/// Whether a further dump has another value in one of the bytes, where nothing ticks.
template <typename Counts>
bool wavers_where(const Image& image, const std::vector<Image>& again, Counts counts) {
  for (const Image& other : again)
    for (std::size_t i = 0; i < std::min(image.size(), other.size()); ++i) {
      const auto at = static_cast<Address>(i);
      if (counts(at) && image.known(at) && other.known(at) &&
          ((image[at] ^ other[at]) & steady_bits(at)) != 0)
        return true;
    }
  return false;
}

}  // namespace

bool wavers(const Image& image, const std::vector<Image>& again) {
  return wavers_where(image, again, [](Address) { return true; });
}

bool wavers_in_passwords(const Image& image, const Layout& layout,
                         const std::vector<Image>& again) {
  return wavers_where(image, again, [&](Address at) { return layout.is_private(at); });
}

std::vector<Repair> votes(const Image& image, const Layout& layout, const Trouble& trouble,
                          const std::vector<Image>& again) {
  return Ballot(image, layout, again).of(trouble);
}

}  // namespace rtcmend
