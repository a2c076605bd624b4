#include "discover/families.h"

#include <algorithm>
#include <bit>
#include <map>
#include <random>

namespace rtcmend {

namespace {

// Two different rules agree in one trial image with a chance of 1/2 at most.
constexpr std::size_t trials = 40;

std::vector<DumpSet::Bytes> trial_images(const DumpSet& evidence) {
  std::mt19937 random;  // always the same numbers: a family must not depend on the run
  std::vector<DumpSet::Bytes> images(trials, evidence.dumps[0]);
  for (DumpSet::Bytes& image : images)
    for (std::size_t at = 0; at < image.size(); ++at)
      if (evidence.varies[at]) image[at] = static_cast<std::uint8_t>(random() >> 11);
  return images;
}

// A match with its constant, ready to say what must be stored in any image.
class Claim {
 public:
  Claim(const DumpSet& evidence, const Match& match)
      : evidence_(evidence),
        match_(match),
        constant_(constant_between(
            match.formula, plain_in(evidence.dumps[0]),
            stored_in(evidence.dumps[0], match.at, match.order, match.formula.width))) {}

  // In address order.
  DumpSet::Bytes asked(const DumpSet::Bytes& image) const {
    const std::uint16_t value = stored_value(match_.formula, constant_, plain_in(image));
    const auto low = static_cast<std::uint8_t>(value & 0xFF);
    const auto high = static_cast<std::uint8_t>(value >> 8);
    if (match_.formula.width == 8) return {low};
    return match_.order == Order::low_first ? DumpSet::Bytes{low, high} : DumpSet::Bytes{high, low};
  }
  void seal(DumpSet::Bytes& image) const {
    const DumpSet::Bytes bytes = asked(image);
    std::ranges::copy(bytes, image.begin() + match_.at);
  }
  bool holds(const DumpSet::Bytes& image) const {
    const DumpSet::Bytes bytes = asked(image);
    return std::equal(bytes.begin(), bytes.end(), image.begin() + match_.at);
  }

 private:
  std::uint16_t plain_in(const DumpSet::Bytes& image) const {
    return plain_value(match_.formula, covered_in(evidence_, image, match_.range));
  }

  const DumpSet& evidence_;
  const Match& match_;
  std::uint16_t constant_;
};

std::vector<std::string> asked_by(const DumpSet& evidence,
                                  const std::vector<DumpSet::Bytes>& images, const Match& match) {
  const Claim claim(evidence, match);
  std::vector<std::string> asked(match.formula.width / 8);
  for (const DumpSet::Bytes& image : images) {
    const DumpSet::Bytes bytes = claim.asked(image);
    for (std::size_t i = 0; i < bytes.size(); ++i) asked[i] += static_cast<char>(bytes[i]);
  }
  return asked;
}

// Polynomials over GF(2), a bit a coefficient.
unsigned degree(unsigned poly) {
  return static_cast<unsigned>(std::bit_width(poly)) - 1;
}

unsigned common_factor(unsigned a, unsigned b) {
  while (b != 0) {
    while (a != 0 && degree(a) >= degree(b)) a ^= b << (degree(a) - degree(b));
    std::swap(a, b);
  }
  return a;
}

}  // namespace

std::vector<Kin> gather_families(const DumpSet& evidence, const std::vector<Match>& matches) {
  const std::vector<DumpSet::Bytes> images = trial_images(evidence);
  std::vector<Kin> families;
  std::map<std::pair<Address, std::vector<std::string>>, std::size_t> index;
  for (const Match& match : matches) {
    std::vector<std::string> asked = asked_by(evidence, images, match);
    const auto [found, is_new] = index.try_emplace({match.at, asked}, families.size());
    if (is_new) families.push_back({{}, match.at, match.formula.width, std::move(asked)});
    families[found->second].members.push_back(match);
  }
  return families;
}

bool is_part_of(const Kin& part, const Kin& whole) {
  if (part.width != 8 || whole.width != 16) return false;
  if (part.at != whole.at && part.at != whole.at + 1) return false;
  return part.asked[0] == whole.asked[static_cast<std::size_t>(part.at - whole.at)];
}

bool are_siblings(const Match& a, const Match& b) {
  if (a.formula.kind != Formula::Kind::crc) return false;
  Match like_a = b;
  like_a.formula.poly = a.formula.poly;
  const unsigned top = 1U << a.formula.width;
  return like_a == a &&
         degree(common_factor(top | a.formula.poly, top | b.formula.poly)) >= a.formula.width / 2;
}

bool are_twins(const DumpSet& evidence, const Match& a, const Match& b) {
  if (a.formula.width != b.formula.width) return false;
  const Claim of_a(evidence, a), of_b(evidence, b);
  for (DumpSet::Bytes image : trial_images(evidence)) {
    of_a.seal(image);
    if (!of_b.holds(image)) return false;
    image[a.at] ^= 1;  // both must notice the same damage
    of_b.seal(image);
    if (!of_a.holds(image)) return false;
  }
  return true;
}

}  // namespace rtcmend
