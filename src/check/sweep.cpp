#include "check/sweep.h"

#include <algorithm>
#include <variant>

namespace rtcmend {

namespace {

// Where the counts stand in a running word. 128 bytes add up to 32,640 at most.
constexpr unsigned zeros_at = 16, ones_at = 32;

constexpr std::array<std::uint64_t, 256> entries = [] {
  std::array<std::uint64_t, 256> made{};
  for (std::size_t byte = 0; byte < made.size(); ++byte)
    made[byte] =
        byte | std::uint64_t{byte == 0x00} << zeros_at | std::uint64_t{byte == 0xFF} << ones_at;
  return made;
}();

std::uint32_t sum_in(std::uint64_t running) {
  return running & 0xFFFF;
}
std::size_t zeros_in(std::uint64_t running) {
  return running >> zeros_at & 0xFFFF;
}
std::size_t ones_in(std::uint64_t running) {
  return running >> ones_at & 0xFFFF;
}

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
  if (is_plain_sum(check.rule)) return {Way::sum, &check, covered};
  const auto* crc = std::get_if<CrcRule>(&check.rule);
  if (crc == nullptr || check.over.size() != 1) return {Way::plainly, &check};
  crcs_.emplace_back(crc->model);
  return {Way::crc, &check, covered, crcs_.size() - 1};
}

void Sweep::pass_over(const Image& image) {
  Running running = 0;
  Running* next = running_.data() + 1;
  for (const std::uint8_t byte : image.bytes()) *next++ = running += entries[byte];
}

Sweep::Running Sweep::of_covered(const Check& check) const {
  Running all = 0;
  for (const Covered& covered : check.over) all += of(covered.range);
  return all;
}

bool Sweep::is_blank(const Range& range) const {
  const Running running = of(range);
  return zeros_in(running) == range.size() || ones_in(running) == range.size();
}

void Sweep::set_blank(const Prepared& prepared, CheckResult& result) const {
  const Running running = of_covered(*prepared.check);
  result.blank = zeros_in(running) == prepared.covered || ones_in(running) == prepared.covered;
}

void Sweep::evaluate_sum(const Prepared& prepared, CheckResult& result) const {
  const Check& check = *prepared.check;
  result.computed = compute_from_sum(check.rule, sum_in(of_covered(check)));
  set_blank(prepared, result);
}

void Sweep::evaluate_crc(const Prepared& prepared, const Image& image, CheckResult& result) const {
  const Range& range = prepared.check->over.front().range;
  result.computed = crcs_[prepared.crc](image.bytes().subspan(range.first, range.size()));
  set_blank(prepared, result);
}

std::span<const CheckResult> Sweep::operator()(const Image& image) {
  pass_over(image);
  for (std::size_t i = 0; i < prepared_.size(); ++i) {
    const Prepared& prepared = prepared_[i];
    if (prepared.way == Way::plainly) {
      results_[i] = evaluate(*prepared.check, image);
      continue;
    }
    results_[i].stored = stored_in(*prepared.check, image);
    if (prepared.way == Way::sum)
      evaluate_sum(prepared, results_[i]);
    else
      evaluate_crc(prepared, image, results_[i]);
  }
  return results_;
}

}  // namespace rtcmend
