#include "deliver/letter_pairs.h"

#include <array>
#include <string_view>

namespace rtcmend {

namespace {

constexpr std::string_view look_alikes = "IOQUVMNDB";

int awkwardness(char letter) {
  const auto at = look_alikes.find(letter);
  return at == std::string_view::npos ? 0 : static_cast<int>(look_alikes.size() - at);
}

using Pair = std::array<char, 2>;

std::array<Pair, 256> best_pairs() {
  std::array<Pair, 256> best{};
  for (char second = 'A'; second <= 'Z'; ++second)
    for (char first = 'A'; first <= 'Z'; ++first) {
      Pair& pair = best[static_cast<std::uint8_t>(first + 10 * second)];
      const bool free = pair[0] == 0;
      if (free ||
          awkwardness(first) + awkwardness(second) < awkwardness(pair[0]) + awkwardness(pair[1]))
        pair = {first, second};
    }
  return best;
}

}  // namespace

std::string letter_pairs(std::span<const std::uint8_t> bytes) {
  static const auto best = best_pairs();
  std::string letters;
  for (const std::uint8_t byte : bytes) letters.append(best[byte].begin(), best[byte].end());
  return letters;
}

}  // namespace rtcmend
