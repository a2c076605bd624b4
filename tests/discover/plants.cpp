#include "discover/plants.h"

#include <algorithm>

namespace rtcmend::test {

namespace {

std::uint16_t random_word(Dice& dice, unsigned width) {
  const unsigned word = dice.byte() << 8U | dice.byte();
  return static_cast<std::uint16_t>(width == 8 ? word & 0xFF : word);
}

Rule random_sum(Dice& dice, unsigned width) {
  constexpr Sign signs[] = {Sign::plain, Sign::negated, Sign::complemented};
  SumRule sum{width, random_word(dice, width), signs[dice.below(3)], std::nullopt};
  if (width == 16 && dice.coin()) sum.pairs = dice.coin() ? Order::low_first : Order::high_first;
  return sum;
}

Rule random_crc(Dice& dice, unsigned width) {
  return CrcRule{{width, static_cast<std::uint16_t>(random_word(dice, width) | 1U),
                  random_word(dice, width), dice.coin(), dice.coin(), random_word(dice, width)}};
}

Rule random_rule(Dice& dice) {
  switch (dice.below(8)) {
    case 0:
      return random_sum(dice, 8);
    case 1:
    case 2:
      return random_sum(dice, 16);
    case 3:
      return XorRule{dice.byte()};
    case 4:
      return BalanceRule{dice.byte()};
    case 5:
      return random_crc(dice, 8);
    default:
      return random_crc(dice, 16);
  }
}

void store(Image& image, const Check& check, std::uint16_t value) {
  const auto low = static_cast<std::uint8_t>(value & 0xFF);
  const auto high = static_cast<std::uint8_t>(value >> 8);
  const auto next = static_cast<Address>(check.stored_at + 1);
  if (width(check) == 8) {
    image.set(check.stored_at, low);
  } else {
    image.set(check.stored_at, check.order == Order::low_first ? low : high);
    image.set(next, check.order == Order::low_first ? high : low);
  }
}

}  // namespace

Plant random_plant(Dice& dice, std::size_t size) {
  Plant plant{size, {}};
  plant.check.rule = random_rule(dice);
  plant.check.order = dice.coin() ? Order::low_first : Order::high_first;
  const std::size_t bytes = width(plant.check) / 8;
  // Drawn until the stored bytes stand outside the range: every such pair is equally likely.
  for (;;) {
    const auto end = static_cast<std::uint32_t>(size);
    const std::size_t a = dice.below(end), b = dice.below(end);
    const std::size_t at = dice.below(static_cast<std::uint32_t>(size - bytes + 1));
    const std::size_t first = std::min(a, b), last = std::max(a, b);
    if (at + bytes > first && at <= last) continue;
    plant.check.over = {{{static_cast<Address>(first), static_cast<Address>(last)}, std::nullopt}};
    plant.check.stored_at = static_cast<Address>(at);
    return plant;
  }
}

std::vector<Image> images_with(const Plant& plant, Dice& dice, std::size_t count) {
  std::vector<Image> images;
  for (const DumpSet::Bytes& bytes : random_dumps(dice, count, plant.size)) {
    Image image(bytes);
    const Range range = plant.check.over[0].range;
    const auto covered = image.bytes().subspan(range.first, range.size());
    store(image, plant.check, compute(plant.check.rule, covered));
    images.push_back(image);
  }
  return images;
}

bool is_the_plant(const Check& check, const Plant& plant, Dice& dice) {
  return std::ranges::all_of(images_with(plant, dice, 24), [&](const Image& image) {
    const CheckResult result = evaluate(check, image);
    return result.stored == result.computed;  // a single covered byte may be blank by chance
  });
}

}  // namespace rtcmend::test
