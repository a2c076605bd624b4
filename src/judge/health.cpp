#include "judge/health.h"

#include <algorithm>
#include <iterator>
#include <utility>

#include "judge/credence.h"
#include "judge/misreads.h"
#include "judge/rearrange.h"
#include "layout/same_layout.h"

namespace rtcmend {

namespace {

/// The first explanation that fits; the later ones would only see its consequences.
std::vector<Finding> explanation(const Image& image, std::span<const Layout> layouts) {
  if (auto finding = one_value_finding(image)) return {std::move(*finding)};
  if (auto finding = address_line_finding(image)) return {std::move(*finding)};
  if (auto findings = bits_stuck_at_1(image); !findings.empty()) return findings;
  if (auto finding = rearranged_finding(image, layouts)) return {std::move(*finding)};
  if (auto findings = bits_stuck_at_0(image, layouts); !findings.empty()) return findings;
  if (auto finding = cleared_finding(image)) return {std::move(*finding)};
  return {};
}

/// A dump of 128 bytes that holds 64 twice.
std::vector<Finding> mirror_explanation(const Image& half, std::span<const Layout> layouts) {
  std::vector<Finding> deeper = explanation(half, layouts);
  deeper.insert(deeper.begin(), deeper.empty() ? half_of_mirror_finding(half) : mirror_finding());
  return deeper;
}

/// Whether two layouts have the same to say about a dump as a whole.
bool checks_alike(const Layout& a, const Layout& b) {
  return a.size == b.size && std::ranges::equal(a.checks, b.checks, same_check);
}

}  // namespace

Finding half_of_mirror_finding(const Image& half) {
  // Nothing turns this half into a chip's: then it is the upper one, twice.
  return chip_credence(half) < 0 ? upper_half_finding() : mirror_finding();
}

std::vector<Finding> health(const Image& image, std::span<const Layout> layouts) {
  if (auto finding = one_value_finding(image)) return {std::move(*finding)};
  if (halves_mirror(image)) return mirror_explanation(image.with_size(Image::small_size), layouts);
  return explanation(image, layouts);
}

std::vector<Finding> reading_findings(const Examination& as_read) {
  std::vector<Finding> reading;
  std::copy_if(as_read.findings.begin(), as_read.findings.end(), std::back_inserter(reading),
               [](const Finding& finding) { return finding.family() == Family::reading; });
  return reading;
}

Examination examine_changed(const Image& image, const Layout& layout,
                            const std::vector<Finding>& reading) {
  return with_findings(examine(image, layout), reading);
}

Examination examine_whole(const Image& image, const Layout& layout, const LayoutSource& others) {
  Examination examination = examine(image, layout);
  if (examination.sound) {
    const std::vector<Finding> faults = health(image, {&layout, 1});
    return with_findings(std::move(examination), faults);
  }
  const std::span<const Layout> known = others();
  const bool among_them = std::any_of(
      known.begin(), known.end(), [&](const Layout& other) { return checks_alike(other, layout); });
  std::vector<Layout> all;
  if (!among_them) {
    all.assign(known.begin(), known.end());
    all.push_back(layout);
  }
  std::vector<Finding> found = health(image, among_them ? known : all);
  if (found.empty() && examination.standing.settings != Standing::Settings::proven)
    if (auto absent = absent_bits(image)) found.push_back(std::move(*absent));
  return with_findings(std::move(examination), found);
}

}  // namespace rtcmend
