#include "judge/health.h"

#include "judge/credence.h"
#include "judge/misreads.h"
#include "judge/rearrange.h"

namespace rtcmend {

namespace {

/// The first explanation that fits; the later ones would only see its consequences.
std::vector<Finding> explanation(const Image& image, const std::vector<Layout>& layouts) {
  if (auto finding = one_value_finding(image)) return {std::move(*finding)};
  if (auto finding = address_line_finding(image)) return {std::move(*finding)};
  if (auto findings = bits_stuck_at_1(image); !findings.empty()) return findings;
  if (auto finding = rearranged_finding(image, layouts)) return {std::move(*finding)};
  if (auto findings = bits_stuck_at_0(image, layouts); !findings.empty()) return findings;
  if (auto finding = cleared_finding(image)) return {std::move(*finding)};
  return {};
}

/// A dump of 128 bytes that holds 64 twice.
std::vector<Finding> mirror_explanation(const Image& half, const std::vector<Layout>& layouts) {
  std::vector<Finding> deeper = explanation(half, layouts);
  // Nothing turns this half into a chip's: then it is the upper one, twice.
  if (deeper.empty() && chip_credence(half) < 0) return {upper_half_finding()};
  deeper.insert(deeper.begin(), mirror_finding());
  return deeper;
}

}  // namespace

std::vector<Finding> health(const Image& image, const std::vector<Layout>& layouts) {
  if (auto finding = one_value_finding(image)) return {std::move(*finding)};
  if (halves_mirror(image)) return mirror_explanation(lower_half(image), layouts);
  return explanation(image, layouts);
}

}  // namespace rtcmend
