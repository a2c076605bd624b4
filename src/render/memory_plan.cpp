#include "render/memory_plan.h"

#include <algorithm>
#include <array>

#include "chip/registers.h"

namespace rtcmend {

namespace {

std::vector<std::string> groups_of(const Layout& layout) {
  std::vector<std::string> names;
  for (const Field& field : layout.fields)
    if (std::find(names.begin(), names.end(), field.group) == names.end())
      names.push_back(field.group);
  return names;
}

template <typename T>
void add_once(std::vector<T>& all, const T& one) {
  if (std::find(all.begin(), all.end(), one) == all.end()) all.push_back(one);
}

/// A stretch whose condition does not hold is not drawn; one that cannot be judged is.
bool covers(const Check& check, Address at, const Image& image) {
  return std::any_of(check.over.begin(), check.over.end(), [&](const Covered& covered) {
    return covered.range.contains(at) && (!covered.when || covered.when->holds(image) != false);
  });
}

Damage damage_at(const std::vector<Finding>& findings, Address at) {
  Damage worst = Damage::none;
  for (const Finding& finding : findings) {
    if (std::find(finding.at.begin(), finding.at.end(), at) == finding.at.end()) continue;
    if (finding.is_fault()) return Damage::fault;
    if (finding.severity() == Severity::doubt) worst = Damage::doubt;
  }
  return worst;
}

Owner owner_of(const PlannedByte& byte) {
  if (!byte.fields.empty()) return Owner::group;
  if (!byte.stores.empty()) return Owner::check;
  if (byte.at < reg::a) return Owner::clock;
  return byte.at <= reg::d ? Owner::registers : Owner::nobody;
}

void add_checks(PlannedByte& byte, const Image& image, const std::vector<CheckResult>& checks) {
  for (std::size_t i = 0; i < checks.size(); ++i) {
    if (!checks[i].counts) continue;
    const Check& check = *checks[i].check;
    const Addresses stored = stored_addresses(check);
    if (std::find(stored.begin(), stored.end(), byte.at) != stored.end()) byte.stores.push_back(i);
    if (covers(check, byte.at, image)) byte.covered_by.push_back(i);
  }
}

}  // namespace

MemoryPlan memory_plan(const Image& image, const Layout& layout, const Examination& examination) {
  MemoryPlan plan{groups_of(layout), {}};
  for (std::size_t i = 0; i < image.size(); ++i) {
    PlannedByte byte;
    byte.at = static_cast<Address>(i);
    byte.fields = layout.fields_at(byte.at);
    for (const Field* field : byte.fields) {
      const auto group = std::find(plan.groups.begin(), plan.groups.end(), field->group);
      add_once(byte.groups, static_cast<std::size_t>(group - plan.groups.begin()));
    }
    add_checks(byte, image, examination.checks);
    byte.owner = owner_of(byte);
    byte.damage = damage_at(examination.findings, byte.at);
    byte.concealed = layout.is_private(byte.at);
    plan.bytes.push_back(std::move(byte));
  }
  return plan;
}

MemoryPlan with_suspects(MemoryPlan plan, const std::vector<Suspect>& suspects) {
  if (suspects.empty()) return plan;
  for (const Patch& patch : suspects.front().changes) plan.bytes.at(patch.at).suspected = true;
  return plan;
}

std::string group_letter(std::size_t group) {
  const std::string last(1, static_cast<char>('A' + group % 26));
  return group < 26 ? last : group_letter(group / 26 - 1) + last;
}

std::string group_title(std::string group) {
  group[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(group[0])));
  return group;
}

std::string chip_word(Address at) {
  // MC146818A, address map.
  static constexpr std::array names{"sec", "alarm", "min",  "alarm", "hour",  "alarm", "wkday",
                                    "day", "month", "year", "reg A", "reg B", "reg C", "reg D"};
  return at < names.size() ? names[at] : "";
}

bool same_owner(const PlannedByte& a, const PlannedByte& b) {
  if (a.owner != b.owner) return false;
  return a.fields == b.fields && (a.owner != Owner::check || a.stores == b.stores);
}

}  // namespace rtcmend
