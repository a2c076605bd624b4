#include "desk/confession.h"

#include <algorithm>

#include "base/text.h"

namespace rtcmend {

namespace {

constexpr std::string_view misread_said =
    "This file says that its bytes come from a misread dump: ";
constexpr std::string_view sealed_said =
    "This file says that its checks were made to hold although something was wrong: ";

/// A sentence as it was first said: what is handed on from file to file does not grow.
std::string first_said(const std::string& text, std::string_view by) {
  return text.starts_with(by) ? text.substr(by.size()) : text;
}

void add_once(const std::string& sentence, std::vector<std::string>& to) {
  if (std::find(to.begin(), to.end(), sentence) == to.end()) to.push_back(sentence);
}

/// Sealing would hide it: the check that holds afterwards vouches for what it only was made to fit.
bool is_hidden_by_sealing(const Finding& obstacle) {
  return obstacle.kind == FindingKind::field_unlisted ||
         obstacle.kind == FindingKind::sealed_before || obstacle.effect() == Effect::doubted;
}

}  // namespace

std::vector<Finding> confessed(const Confession& confession) {
  std::vector<Finding> found;
  if (!confession.misread.empty())
    found.push_back({FindingKind::misread_before,
                     {},
                     std::string(misread_said) + join(confession.misread, " "),
                     "Read the chip again, and begin with that dump.",
                     "the file itself"});
  if (!confession.sealed_anyway.empty())
    found.push_back({FindingKind::sealed_before,
                     {},
                     std::string(sealed_said) + join(confession.sealed_anyway, " "),
                     "Begin with a dump of the chip, and mend what is named before sealing.",
                     "the file itself"});
  return found;
}

Confession confession(const Readiness& readiness, const std::vector<Finding>& reading) {
  Confession said;
  for (const Finding& finding : reading)
    if (finding.effect() == Effect::misread)
      add_once(first_said(finding.text, misread_said), said.misread);
  for (const Finding& obstacle : readiness.obstacles)
    if (is_hidden_by_sealing(obstacle))
      add_once(first_said(obstacle.text, sealed_said), said.sealed_anyway);
  return said;
}

}  // namespace rtcmend
