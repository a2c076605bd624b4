#include "deliver/spoil.h"

#include <algorithm>
#include <variant>

namespace rtcmend {

namespace {

constexpr std::uint32_t words = 0x10000;

bool unconditional(const Check& check) {
  return !check.when &&
         std::none_of(check.over.begin(), check.over.end(),
                      [](const Covered& covered) { return covered.when.has_value(); });
}

/// A high byte that no sum over so few bytes has; nothing where there is none.
std::optional<std::uint8_t> impossible_high_byte(const Check& check) {
  const auto* sum = std::get_if<SumRule>(&check.rule);
  if (!sum || sum->width != 16 || sum->pairs) return std::nullopt;
  const auto most = static_cast<std::uint32_t>(sum->start + 255U * covered_addresses(check).size());
  if (most >= 0xFE00) return std::nullopt;
  // Plain sums end below, complemented and negated ones begin above; minus nothing is nothing.
  switch (sum->sign) {
    case Sign::plain:
      return std::uint8_t{0xFF};
    case Sign::complemented:
      return std::uint8_t{0x00};
    case Sign::negated:
      break;
  }
  return words - most > 0x0200 ? std::optional(std::uint8_t{0x01}) : std::nullopt;
}

Address high_byte(const Check& check) {
  const bool second = width(check) == 16 && check.order == Order::low_first;
  return static_cast<Address>(check.stored_at + (second ? 1 : 0));
}

}  // namespace

std::optional<Spoil> choose_spoil(const Parcel& parcel, const Addresses& written) {
  const auto is_written = [&](Address at) {
    return std::find(written.begin(), written.end(), at) != written.end();
  };
  std::optional<Spoil> best;
  unsigned best_worth = 0;
  for (std::size_t i = 0; i < parcel.checks.size(); ++i) {
    const Check& check = parcel.checks[i];
    Spoil spoil{i, high_byte(check), 0, false};
    if (!unconditional(check) || !is_written(spoil.at)) continue;
    const auto impossible = impossible_high_byte(check);
    spoil.certain = impossible.has_value();
    spoil.value = impossible.value_or(static_cast<std::uint8_t>(~parcel.image[spoil.at]));
    const unsigned worth = spoil.certain ? 3 : width(check) == 16 ? 2 : 1;
    if (worth <= best_worth) continue;
    best = spoil;
    best_worth = worth;
  }
  return best;
}

}  // namespace rtcmend
