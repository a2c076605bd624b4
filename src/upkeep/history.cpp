#include "upkeep/history.h"

#include <algorithm>
#include <cctype>
#include <fmt/format.h>

#include "judge/compare.h"
#include "judge/examine.h"
#include "judge/health.h"

namespace rtcmend {

namespace {

/// The digits at the start of a name, with the marks that people put between them left out.
std::string leading_digits(std::string_view name) {
  std::string digits;
  for (const char c : name) {
    if (std::isdigit(static_cast<unsigned char>(c)) != 0)
      digits += c;
    else if (digits.empty() || (c != '-' && c != '_' && c != 'T' && c != ':'))
      break;
  }
  return digits;
}

constexpr std::size_t date_digits = 8, minute_digits = 12, second_digits = 14;

std::vector<SettingChange> setting_changes(const Examination& before, const Examination& after,
                                           const std::vector<std::string>& ids) {
  std::vector<SettingChange> changes;
  for (std::size_t i = 0; i < after.fields.size(); ++i) {
    const FieldReading &old = before.fields[i], &now = after.fields[i];
    if (std::find(ids.begin(), ids.end(), now.field->id) == ids.end()) continue;
    if (old.text == now.text && now.field->meaning != Meaning::concealed) continue;
    changes.push_back({now.field->id, now.field->label, old.text,
                       old.text == now.text ? now.text + ", but another one" : now.text});
  }
  return changes;
}

/// Fills in what changed from one dump to the next.
void hold_against(HistoryEntry& entry, const Examination& judged, const HistoryEntry& before,
                  const Layout& layout) {
  std::vector<std::string> ids;
  for (const Difference& difference :
       compare(*before.item.image, *entry.item.image, layout).differences) {
    if (!difference.ignored.empty()) continue;
    ids.insert(ids.end(), difference.fields.begin(), difference.fields.end());
    if (difference.fields.empty()) entry.other_bytes.push_back(difference.at);
  }
  entry.changes = setting_changes(examine(*before.item.image, layout), judged, ids);
}

void judge(HistoryEntry& entry, const Examination& judged) {
  entry.standing = judged.standing;
  entry.sound = judged.sound;
  for (const Finding& finding : judged.findings)
    if (finding.is_fault()) entry.faults.push_back(finding);
}

/// What a machine had when it was last well is evidence for what it should have.
void suspect(HistoryEntry& entry, const History& so_far, const Layout& layout) {
  if (entry.standing.dump == Standing::Dump::misread) return;
  Provenance provenance = entry.item.provenance;
  if (so_far.last_good) provenance.before = so_far.entries[*so_far.last_good].item.image;
  entry.suspects = suspects(*entry.item.image, layout, provenance);
  if (!entry.suspects.empty()) entry.weighed_with = so_far.last_good;
}

void refuse_too_small(HistoryEntry& entry, const Layout& layout) {
  entry.item.problem = fmt::format("it holds {} bytes, and the layout {} needs {}",
                                   entry.item.image->size(), layout.id, layout.size);
  entry.item.image.reset();
}

}  // namespace

std::optional<DateTime> date_in_name(std::string_view name) {
  const std::string digits = leading_digits(name);
  if (digits.size() < date_digits) return std::nullopt;
  const auto number = [&](std::size_t at, std::size_t count) {
    return std::stoi(digits.substr(at, count));
  };
  DateTime date{number(0, 4), number(4, 2), number(6, 2), 0, 0, 0};
  if (digits.size() >= minute_digits) {
    date.hour = number(8, 2);
    date.minute = number(10, 2);
  }
  if (digits.size() >= second_digits) date.second = number(12, 2);
  if (!can_be_set(date)) return std::nullopt;
  return date;
}

History history(std::vector<HistoryItem> items, const Layout& layout) {
  std::stable_sort(items.begin(), items.end(), [](const auto& a, const auto& b) {
    return a.date != b.date ? a.date < b.date : a.name < b.name;
  });
  History result;
  std::optional<std::size_t> before;
  for (HistoryItem& item : items) {
    const std::size_t index = result.entries.size();
    HistoryEntry entry;
    entry.item = std::move(item);
    if (entry.item.image && entry.item.image->size() < layout.size) refuse_too_small(entry, layout);
    if (entry.item.image) {
      const Examination judged = examine_changed(*entry.item.image, layout, entry.item.reading);
      judge(entry, judged);
      suspect(entry, result, layout);
      if (before) hold_against(entry, judged, result.entries[*before], layout);
      entry.since = before;
      before = index;
      result.latest_is_good = entry.is_good();
      if (entry.is_good()) result.last_good = index;
    }
    result.entries.push_back(std::move(entry));
  }
  return result;
}

}  // namespace rtcmend
