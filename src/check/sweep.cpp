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

std::uint16_t stored_in(const Check& check, const Image& image) {
  const unsigned first = image[check.stored_at];
  if (width(check) == 8) return static_cast<std::uint16_t>(first);
  const unsigned second = image[static_cast<Address>(check.stored_at + 1)];
  return static_cast<std::uint16_t>(check.order == Order::low_first ? second << 8 | first
                                                                    : first << 8 | second);
}

}  // namespace

Sweep::Sweep(const std::vector<const Check*>& checks) {
  for (const Check* check : checks) {
    prepared_.push_back(prepare(*check));
    results_.emplace_back().check = check;
  }
}

Sweep::Prepared Sweep::prepare(const Check& check) {
  const std::size_t covered = covered_addresses(check).size();
  if (has_conditions(check)) return {Way::plainly, &check};
  sums_ += check.over.size();
  if (is_plain_sum(check.rule)) return {Way::sum, &check, covered};
  const auto* crc = std::get_if<CrcRule>(&check.rule);
  if (crc == nullptr || check.over.size() != 1) return {Way::plainly, &check};
  crcs_.emplace_back(crc->model);
  return {Way::crc, &check, covered, crcs_.size() - 1};
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

std::uint32_t Sweep::sum_of_covered(const Check& check, const Image& image) const {
  std::uint32_t sum = 0;
  for (const Covered& covered : check.over) sum += sum_of(covered.range, image);
  return sum;
}

std::span<const CheckResult> Sweep::operator()(const Image& image) {
  if (sums_ > few_sums) pass_over(image);
  for (std::size_t i = 0; i < prepared_.size(); ++i) {
    const Prepared& prepared = prepared_[i];
    const Check& check = *prepared.check;
    CheckResult& result = results_[i];
    if (prepared.way == Way::plainly) {
      result = evaluate(check, image);
      continue;
    }
    const std::uint32_t sum = sum_of_covered(check, image);
    result.stored = stored_in(check, image);
    if (prepared.way == Way::sum) {
      result.computed = compute_from_sum(check.rule, sum);
    } else {
      const Range& range = check.over.front().range;
      result.computed = crcs_[prepared.crc](image.bytes().subspan(range.first, range.size()));
    }
    // No other bytes come to these sums.
    result.blank = sum == 0x00 || sum == 0xFF * prepared.covered;
  }
  return results_;
}

}  // namespace rtcmend
