#include "judge/credence.h"

#include <algorithm>
#include <cmath>

#include "check/check.h"
#include "chip/clock.h"
#include "chip/registers.h"
#include "layout/same_layout.h"

namespace rtcmend {

namespace {

/// A byte of the clock and how many of the 256 codes are legal in it (DS12885, table 2A).
struct LegalCodes {
  Address at;
  double codes;
};

constexpr LegalCodes clock_codes[] = {{reg::seconds, 60}, {reg::minutes, 60}, {reg::hours, 24},
                                      {reg::weekday, 7},  {reg::day, 31},     {reg::month, 12},
                                      {reg::year, 100}};

// By judgement: about one working chip in 16 shows any one of these.
constexpr double unlikely = -4;

double credence_of_registers(const Image& image) {
  double bits = 0;
  if (const auto byte = image.at(reg::d)) {
    const RegisterD d = decode_d(*byte);
    bits += d.reserved != 0 ? 2 * unlikely : d.valid ? 8 : 0;
  }
  if (const auto byte = image.at(reg::c)) bits += decode_c(*byte).reserved != 0 ? unlikely : 1;
  if (const auto byte = image.at(reg::a))
    bits += decode_a(*byte).oscillator == Oscillator::counting ? 3 : unlikely;
  return bits;
}

bool is_faulty(const ClockReading& clock, Address at) {
  return std::any_of(clock.faults.begin(), clock.faults.end(),
                     [at](const ClockFault& fault) { return fault.at == at; });
}

double credence_of_clock(const Image& image) {
  const ClockReading clock = judge_clock(image, std::nullopt);
  if (!clock.mode) return 0;
  double bits = 0;
  for (const auto& [at, codes] : clock_codes) {
    const auto byte = image.at(at);
    if (!byte) continue;
    // A zero is legal too often by itself to prove anything.
    if (is_faulty(clock, at))
      bits += unlikely;
    else if (*byte != 0)
      bits += std::log2(256 / codes);
  }
  if (clock.time &&
      clock.weekday == weekday_of(clock.time->year, clock.time->month, clock.time->day))
    bits += std::log2(7.0);
  return bits;
}

/// Layouts have many checks in common: each different one is evaluated once.
class Evaluations {
 public:
  explicit Evaluations(const Image& image) : image_(image) {}

  /// Good until the next question.
  const CheckResult& of(const Check& check) {
    const auto known = std::find_if(results_.begin(), results_.end(), [&](const auto& result) {
      return same_check(*result.check, check);
    });
    return known != results_.end() ? *known : results_.emplace_back(evaluate(check, image_));
  }

 private:
  const Image& image_;
  std::vector<CheckResult> results_;
};

/// What one layout's checks say.
struct Standing {
  double bits = 0;  ///< widths of those that hold
  bool all_hold = true;
};

Standing standing(const Layout& layout, Evaluations& evaluations) {
  Standing standing;
  for (const Check& check : layout.checks) {
    const CheckResult& result = evaluations.of(check);
    if (!result.counts) continue;
    if (result.ok())
      standing.bits += width(check);
    else
      standing.all_hold = false;
  }
  return standing;
}

}  // namespace

double chip_credence(const Image& image) {
  return credence_of_registers(image) + credence_of_clock(image);
}

double check_credence(const Image& image, std::span<const Layout> layouts) {
  double best = 0;
  Evaluations evaluations(image);
  for (const Layout& layout : layouts)
    if (layout.size <= image.size()) best = std::max(best, standing(layout, evaluations).bits);
  return best;
}

double proven_bits(const Image& image, std::span<const Layout> layouts) {
  double best = 0;
  Evaluations evaluations(image);
  for (const Layout& layout : layouts) {
    if (layout.size > image.size()) continue;
    const Standing own = standing(layout, evaluations);
    if (own.all_hold) best = std::max(best, own.bits);
  }
  return best;
}

double credence(const Image& image, std::span<const Layout> layouts) {
  return chip_credence(image) + check_credence(image, layouts);
}

}  // namespace rtcmend
