#include "discover/session.h"

#include <algorithm>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/error.h"
#include "base/json.h"
#include "base/near_miss.h"

namespace rtcmend {

using nlohmann::json;
using nlohmann::ordered_json;

namespace {

// A session of a patient evening: forty settings with five values, twice each.
constexpr std::size_t most_steps = 1000;

std::string word_of(const json& value, const std::string& place) {
  if (value.is_string()) return value.get<std::string>();
  if (value.is_number_integer()) return std::to_string(value.get<std::int64_t>());
  if (value.is_boolean()) return value.get<bool>() ? "yes" : "no";
  refuse(place, "this must be a word or a whole number");
}

SessionEntry read_entry(const json& step, const std::string& place) {
  if (!step.is_object()) refuse(place, "a step is an object with label, value and dump");
  for (const auto& [key, value] : step.items())
    if (key != "label" && key != "value" && key != "dump" && key != "values")
      refuse(place, fmt::format("a step has no \"{}\"", key),
             near_or_all(key, {"label", "value", "dump", "values"}));
  SessionEntry entry;
  if (step.contains("label") && !step["label"].is_null())
    entry.setting = word_of(step["label"], place + "/label");
  if (step.contains("value") && !step["value"].is_null())
    entry.value = word_of(step["value"], place + "/value");
  if (!step.contains("dump")) refuse(place, "the step names no dump");
  entry.dump = word_of(step["dump"], place + "/dump");
  if (entry.setting.empty() != entry.value.empty())
    refuse(place, "label and value go together", "leave both out for a start with nothing changed");
  return entry;
}

/// Whether several settings were changed at once.
bool is_mixed(const json& step, const std::string& place) {
  if (!step.contains("values")) return false;
  if (step.contains("label") || step.contains("value") || !step["values"].is_object())
    refuse(place, "\"values\" is an object of settings, and stands without label and value");
  for (const auto& [setting, value] : step["values"].items()) word_of(value, place + "/values");
  return true;
}

}  // namespace

SessionFile parse_session(std::string_view text, const std::string& where) {
  const json session = parse_json(text, where);
  if (!session.is_object() || !session.contains("steps") || !session["steps"].is_array())
    refuse(where, "a session is an object with a list of \"steps\"",
           R"({"steps": [{"label": "floppy_b", "value": "none", "dump": "dump0.bin"}, ...]})");
  for (const auto& [key, value] : session.items())
    if (key != "layout" && key != "steps" && key != "note")
      refuse(json_place(where, "/" + key), "a session has no such key",
             near_or_all(key, {"layout", "steps", "note"}));
  if (session["steps"].size() > most_steps)
    refuse(json_place(where, "/steps"), fmt::format("more than {} steps", most_steps));

  SessionFile file;
  if (session.contains("layout") && !session["layout"].is_null())
    file.layout = word_of(session["layout"], json_place(where, "/layout"));
  for (std::size_t i = 0; i < session["steps"].size(); ++i) {
    const std::string place = json_place(where, fmt::format("/steps/{}", i));
    SessionEntry entry = read_entry(session["steps"][i], place);
    if (is_mixed(session["steps"][i], place))
      file.mixed.push_back(std::move(entry.dump));
    else
      file.entries.push_back(std::move(entry));
  }
  return file;
}

std::string new_session(const std::string& layout) {
  ordered_json session;
  if (!layout.empty()) session["layout"] = layout;
  session["steps"] = ordered_json::array();
  return session.dump(2) + "\n";
}

std::string with_step(std::string_view text, const std::string& where, const Changed& changed,
                      const std::string& dump) {
  parse_session(text, where);
  auto session = ordered_json::parse(text);
  ordered_json step;
  if (changed.size() == 1) {
    step["label"] = changed.front().first;
    step["value"] = changed.front().second;
  }
  if (changed.size() > 1)
    for (const auto& [setting, value] : changed) step["values"][setting] = value;
  step["dump"] = dump;
  session["steps"].push_back(std::move(step));
  std::string longer = session.dump(2) + "\n";
  parse_session(longer, where);
  return longer;
}

std::pair<std::string, std::string> without_last_step(std::string_view text,
                                                      const std::string& where) {
  parse_session(text, where);
  auto session = ordered_json::parse(text);
  if (session["steps"].empty()) refuse(where, "the session has no step yet");
  const std::string dump = session["steps"].back()["dump"];
  session["steps"].erase(session["steps"].size() - 1);
  return {session.dump(2) + "\n", dump};
}

SessionEntry parse_step(std::string_view text) {
  const auto equals = text.find('=');
  const auto colon = text.find(':', equals == std::string_view::npos ? 0 : equals);
  if (equals == std::string_view::npos || colon == std::string_view::npos || equals == 0 ||
      colon == equals + 1 || colon + 1 == text.size())
    refuse_choice("step", fmt::format("\"{}\" is not SETTING=VALUE:DUMP", text),
                  "floppy_b=1.44M:dump1.bin");
  return {std::string(text.substr(0, equals)),
          std::string(text.substr(equals + 1, colon - equals - 1)),
          std::string(text.substr(colon + 1))};
}

std::vector<Visit> gather_visits(const std::vector<Step>& steps) {
  std::vector<Visit> visits;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const auto same = std::ranges::find_if(visits, [&](const Visit& visit) {
      return visit.setting == steps[i].setting && visit.value == steps[i].value;
    });
    if (same != visits.end())
      same->steps.push_back(i);
    else
      visits.push_back({steps[i].setting, steps[i].value, {i}});
  }
  return visits;
}

}  // namespace rtcmend
