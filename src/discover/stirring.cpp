#include "discover/stirring.h"

#include <algorithm>
#include <fmt/format.h>
#include <map>

namespace rtcmend {

namespace {

using Disputes = std::vector<std::size_t>;  // visits whose own dumps differ in a byte

bool visit_agrees(const std::vector<Step>& steps, const Visit& visit, Address at) {
  return std::ranges::all_of(visit.steps, [&](std::size_t step) {
    return steps[step].image[at] == steps[visit.steps.front()].image[at];
  });
}

Disputes disputes_over(const std::vector<Step>& steps, const std::vector<Visit>& visits,
                       Address at) {
  Disputes disputes;
  for (std::size_t i = 0; i < visits.size(); ++i)
    if (!visit_agrees(steps, visits[i], at)) disputes.push_back(i);
  return disputes;
}

// Whether the byte follows the setting of the disputed visits in its other values: only then is the
// dispute about a label; else the byte just changed once.
bool follows_otherwise(const std::vector<Step>& steps, const std::vector<Visit>& visits,
                       const Disputes& disputes, Address at) {
  std::optional<std::uint8_t> seen;
  for (std::size_t i = 0; i < visits.size(); ++i) {
    if (std::ranges::count(disputes, i) != 0) continue;
    if (visits[i].setting != visits[disputes[0]].setting) continue;
    const std::uint8_t byte = steps[visits[i].steps.front()].image[at];
    if (seen && *seen != byte) return true;
    seen = byte;
  }
  return false;
}

// One value in dispute, or two of one setting, as when their dumps were exchanged.
bool is_contradiction(const std::vector<Step>& steps, const std::vector<Visit>& visits,
                      const Disputes& disputes, Address at) {
  const std::string& setting = visits[disputes[0]].setting;
  if (disputes.size() > 2 || setting.empty() || visits[disputes.back()].setting != setting)
    return false;
  return follows_otherwise(steps, visits, disputes, at);
}

std::size_t first_that_differs(const std::vector<Step>& steps, const Visit& visit, Address at) {
  for (const std::size_t step : visit.steps)
    if (steps[step].image[at] != steps[visit.steps.front()].image[at]) return step;
  return visit.steps.front();
}

Contradiction describe(const std::vector<Step>& steps, const Visit& visit, const Addresses& bytes) {
  const std::string& one = steps[visit.steps.front()].name;
  const std::string& other = steps[first_that_differs(steps, visit, bytes.front())].name;
  return {visit.setting,
          visit.value,
          one,
          other,
          bytes,
          fmt::format("{} and {} both say {}={}, but they differ at {}: one of them may carry the "
                      "wrong label, so this value is left open there",
                      one, other, visit.setting, visit.value, to_prose(bytes))};
}

}  // namespace

Addresses bytes_that_differ(std::span<const Image> images) {
  Addresses differing;
  if (images.empty()) return differing;
  for (std::size_t i = Image::ram_start; i < images.front().size(); ++i) {
    const auto at = static_cast<Address>(i);
    const bool differs = std::ranges::any_of(images, [&](const Image& image) {
      return image.at(at) && images.front().at(at) && image[at] != images.front()[at];
    });
    if (differs) differing.push_back(at);
  }
  return differing;
}

Stirring find_stirring(const std::vector<Step>& steps, const std::vector<Visit>& visits,
                       const Addresses& passed_over) {
  const std::size_t size = steps.front().image.size();
  Stirring stirring;
  stirring.settled.assign(size, false);
  stirring.agrees.assign(size, std::vector<bool>(visits.size(), true));
  std::map<std::size_t, Addresses> contradicted;  // by visit
  for (std::size_t i = Image::ram_start; i < size; ++i) {
    const auto at = static_cast<Address>(i);
    const bool known =
        std::ranges::all_of(steps, [&](const Step& step) { return step.image.known(at); });
    if (!known || std::ranges::count(passed_over, at) != 0) continue;
    const Disputes disputes = disputes_over(steps, visits, at);
    stirring.settled[at] = true;
    if (disputes.empty()) continue;
    if (is_contradiction(steps, visits, disputes, at)) {
      for (const std::size_t visit : disputes) {
        contradicted[visit].push_back(at);
        stirring.agrees[at][visit] = false;
      }
    } else {
      stirring.restless.push_back(at);
      stirring.settled[at] = false;
    }
  }
  for (const auto& [visit, bytes] : contradicted)
    stirring.contradictions.push_back(describe(steps, visits[visit], bytes));
  return stirring;
}

}  // namespace rtcmend
