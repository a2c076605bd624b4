#include "check/sweep.h"

#include <algorithm>
#include <numeric>
#include <variant>

namespace rtcmend {

namespace {

/// Adding up this many stretches costs less than running sums of all bytes.
constexpr std::size_t few_sums = 6;

bool has_conditions(const Check& check) {
  return check.when || std::any_of(check.over.begin(), check.over.end(),
                                   [](const Covered& covered) { return covered.when.has_value(); });
}

bool is_plain_sum(const Rule& rule) {
  const auto* sum = std::get_if<SumRule>(&rule);
  return (sum != nullptr && !sum->pairs) || std::holds_alternative<BalanceRule>(rule);
}

}  // namespace

Sweep::Sweep(std::span<const Check* const> checks) {
  for (const Check* check : checks) {
    prepared_.push_back(prepare(*check));
    results_.push_back({check, true, 0, 0, {}, false});
  }
}

Sweep::Prepared Sweep::prepare(const Check& check) {
  Prepared prepared{Way::plainly, &check};
  if (has_conditions(check)) return prepared;
  sums_ += check.over.size();
  const auto* crc = std::get_if<CrcRule>(&check.rule);
  prepared.is_one_stretch = check.over.size() == 1;
  if (is_plain_sum(check.rule)) {
    prepared.way = Way::sum;
    prepared.at_zero = compute_from_sum(check.rule, 0);
    prepared.step = static_cast<std::uint16_t>(compute_from_sum(check.rule, 1) - prepared.at_zero);
  } else if (crc != nullptr && prepared.is_one_stretch) {
    prepared.way = Way::crc;
    prepared.crc = crcs_.size();
    crcs_.emplace_back(crc->model);
  }
  prepared.all_ones = static_cast<std::uint32_t>(0xFF * covered_addresses(check).size());
  prepared.mask = width(check) == 8 ? 0xFF : 0xFFFF;
  const auto second = static_cast<Address>(check.stored_at + (width(check) == 8 ? 0 : 1));
  prepared.high = check.order == Order::low_first ? second : check.stored_at;
  prepared.low = check.order == Order::low_first ? check.stored_at : second;
  prepared.first = check.over.front().range;
  return prepared;
}

void Sweep::pass_over(const Image& image) {
  std::uint32_t sum = 0;
  std::uint32_t* next = running_.data() + 1;
  for (const std::uint8_t byte : image.bytes()) *next++ = sum += byte;
}

std::uint32_t Sweep::sum_of(const Range& range, const Image& image) const {
  if (sums_ > few_sums) return running_[range.last + std::size_t{1}] - running_[range.first];
  const auto bytes = image.bytes().subspan(range.first, range.size());
  return std::accumulate(bytes.begin(), bytes.end(), std::uint32_t{0});
}

std::uint32_t Sweep::sum_of_covered(const Prepared& prepared, const Image& image) const {
  if (prepared.is_one_stretch) return sum_of(prepared.first, image);
  std::uint32_t sum = 0;
  for (const Covered& covered : prepared.check->over) sum += sum_of(covered.range, image);
  return sum;
}

std::span<const CheckResult> Sweep::operator()(const Image& image) {
  if (sums_ > few_sums) pass_over(image);
  for (std::size_t i = 0; i < prepared_.size(); ++i) {
    const Prepared& prepared = prepared_[i];
    CheckResult& result = results_[i];
    if (prepared.way == Way::plainly) {
      result = evaluate(*prepared.check, image);
      continue;
    }
    const std::uint32_t sum = sum_of_covered(prepared, image);
    const unsigned pair = image[prepared.high] << 8U | image[prepared.low];
    *result.stored = static_cast<std::uint16_t>(pair & prepared.mask);
    *result.computed =
        prepared.way == Way::sum
            ? static_cast<std::uint16_t>((prepared.at_zero + sum * prepared.step) & prepared.mask)
            : crcs_[prepared.crc](
                  image.bytes().subspan(prepared.first.first, prepared.first.size()));
    // No other bytes come to these sums.
    result.blank = sum == 0x00 || sum == prepared.all_ones;
  }
  return results_;
}

}  // namespace rtcmend
