#include "discover/search.h"

namespace rtcmend {

double Harvest::bits_of(const Match& match) {
  const auto [entry, is_new] =
      bits_.try_emplace({match.range.first, match.range.last, match.at}, 0.0);
  if (is_new) entry->second = evidence_bits(evidence_, match);
  return entry->second;
}

bool Harvest::wants(const Match& match) {
  const double least = result_.crowded ? threshold_.decisive_bits : threshold_.least_bits;
  if (bits_of(match) >= least) return true;
  ++result_.dismissed;
  return false;
}

void Harvest::take(const Match& match) {
  result_.matches.push_back(match);
  if (!result_.crowded && result_.matches.size() >= crowd) thin_out();
}

void Harvest::thin_out() {
  result_.crowded = true;
  result_.dismissed += std::erase_if(result_.matches, [&](const Match& match) {
    return bits_of(match) < threshold_.decisive_bits;
  });
}

}  // namespace rtcmend
