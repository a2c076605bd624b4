#include "render/history.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "render/columns.h"

namespace rtcmend {

namespace {

constexpr std::size_t text_column = 14;

std::string day(const DateTime& date) {
  return fmt::format("{:04}-{:02}-{:02}", date.year, date.month, date.day);
}

bool is_note(const HistoryEntry& entry) {
  return !entry.item.image && entry.item.problem.empty();
}

std::string verdict_words(const HistoryEntry& entry, const Ink& ink) {
  if (!entry.item.problem.empty()) return ink(Tone::doubtful, "not read");
  if (is_note(entry)) return "note";
  if (entry.sound) return ink(Tone::good, "sound");
  return ink(Tone::bad, "not sound: " + counted(entry.faults.size(), "fault"));
}

std::string under(std::string_view text) {
  return std::string(text_column, ' ') + hanging(text, text_column) + "\n";
}

std::string note_text(const HistoryEntry& entry) {
  std::string text;
  for (const std::string_view line : lines(entry.item.note))
    if (!trim(line).empty()) text += under(trim(line));
  return text;
}

std::string changes_text(const HistoryEntry& entry) {
  if (!entry.since) return {};
  if (entry.changes.empty() && entry.other_bytes.empty()) return under("nothing changed");
  std::string text;
  for (const SettingChange& change : entry.changes)
    text += under(fmt::format("{}: {} -> {}", change.id, change.before, change.after));
  if (!entry.other_bytes.empty())
    text += under("bytes of no setting: " + to_prose(entry.other_bytes));
  return text;
}

std::string entry_text(const HistoryEntry& entry, const Ink& ink) {
  std::string text = fmt::format("  {}  {}  {}{}\n", day(entry.item.date),
                                 printable(entry.item.name), verdict_words(entry, ink),
                                 entry.item.dated_by_name ? "" : " (dated by its file)");
  if (!entry.item.problem.empty()) text += under(entry.item.problem);
  for (const Finding& fault : entry.faults) text += under(fault.text);
  return text + note_text(entry) + changes_text(entry);
}

std::string conclusion(const History& history, const std::string& folder, const Ink& ink) {
  if (!history.last_good)
    return ink(Tone::bad, "No sound image is among them.") +
           "\nTry: rtcmend compose, from what is fitted in the machine.\n";
  const HistoryItem& item = history.entries[*history.last_good].item;
  const std::string slash = folder.ends_with('/') ? "" : "/";
  return fmt::format("{}: {}, {}.\n",
                     ink(Tone::good, history.latest_is_good ? "Last good image, and the latest"
                                                            : "Last good image"),
                     printable(item.name), day(item.date)) +
         fmt::format("Start from it: rtcmend show {}\n", printable(folder + slash + item.name));
}

}  // namespace

std::string history_text(const History& history, const std::string& folder, const Layout& layout,
                         const Ink& ink) {
  const auto count = [&](auto which) {
    return static_cast<std::size_t>(
        std::count_if(history.entries.begin(), history.entries.end(), which));
  };
  std::string text = fmt::format(
      "{}: {}, {}; layout {}\n\n", ink(Tone::strong, printable(folder)),
      counted(count([](const HistoryEntry& e) { return e.item.image.has_value(); }), "dump"),
      counted(count([](const HistoryEntry& e) { return is_note(e); }), "note"),
      printable(layout.id));
  for (const HistoryEntry& entry : history.entries) text += entry_text(entry, ink);
  return text + "\n" + conclusion(history, folder, ink);
}

Json history_json(const History& history, const Layout& layout) {
  Json json;
  json["layout"] = layout.id;
  json["last_good"] =
      history.last_good ? Json(history.entries[*history.last_good].item.name) : Json(nullptr);
  json["latest_is_good"] = history.latest_is_good;
  json["entries"] = Json::array();
  for (const HistoryEntry& entry : history.entries) {
    Json one;
    one["name"] = entry.item.name;
    one["date"] = to_iso(entry.item.date);
    one["dated_by"] = entry.item.dated_by_name ? "name" : "file";
    one["sound"] = entry.item.image ? Json(entry.sound) : Json(nullptr);
    one["note"] = is_note(entry) ? Json(entry.item.note) : Json(nullptr);
    one["problem"] = entry.item.problem.empty() ? Json(nullptr) : Json(entry.item.problem);
    one["faults"] = findings_json(entry.faults);
    one["since"] = entry.since ? Json(history.entries[*entry.since].item.name) : Json(nullptr);
    one["changes"] = Json::array();
    for (const SettingChange& change : entry.changes) {
      Json setting;
      setting["field"] = change.id;
      setting["before"] = change.before;
      setting["after"] = change.after;
      one["changes"].push_back(setting);
    }
    one["other_bytes"] = entry.other_bytes;
    json["entries"].push_back(one);
  }
  return json;
}

}  // namespace rtcmend
