#include "render/history_json.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "render/diagnosis_json.h"

namespace rtcmend {

Json history_json(const History& history, const Layout& layout) {
  Json json;
  add_layout(&layout, json);
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
    one["standing"] = entry.item.image ? standing_json(entry.standing) : Json(nullptr);
    one["note"] = entry.item.is_note() ? Json(entry.item.note) : Json(nullptr);
    one["problem"] = entry.item.problem.empty() ? Json(nullptr) : Json(entry.item.problem);
    one["faults"] = findings_json(entry.faults);
    one["suspects"] = suspects_json(entry.suspects);
    one["weighed_with"] =
        entry.weighed_with ? Json(history.entries[*entry.weighed_with].item.name) : Json(nullptr);
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
