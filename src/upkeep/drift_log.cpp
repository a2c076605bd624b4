#include "upkeep/drift_log.h"

#include <algorithm>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/error.h"
#include "base/json.h"
#include "base/text.h"

namespace rtcmend {

using nlohmann::json;

namespace {

constexpr const char* line_remedy =
    "take the line out, or write it as the others are: shown, reference, daylight_saving, running";

DateTime time_in(const json& entry, const char* key, const std::string& where) {
  const auto found = entry.find(key);
  if (found == entry.end() || !found->is_string())
    refuse(where, fmt::format("\"{}\" is missing, or is no text", key), line_remedy);
  const std::string text = found->get<std::string>();
  const auto time = parse_iso(text);
  if (!time)
    refuse(
        where,
        fmt::format("\"{}\" is no date and time from 1980 to 2099: \"{}\"", key, printable(text)),
        line_remedy);
  return *time;
}

std::optional<bool> flag_in(const json& entry, const char* key, const std::string& where) {
  const auto found = entry.find(key);
  if (found == entry.end() || found->is_null()) return std::nullopt;
  if (!found->is_boolean())
    refuse(where, fmt::format("\"{}\" is neither true nor false", key), line_remedy);
  return found->get<bool>();
}

ClockSample sample_in(std::string_view line, const std::string& where) {
  const json entry = parse_json(line, where);
  if (!entry.is_object()) refuse(where, "it is not an object", line_remedy);
  ClockSample sample;
  sample.shown = time_in(entry, "shown", where);
  sample.reference = time_in(entry, "reference", where);
  sample.daylight_saving = flag_in(entry, "daylight_saving", where).value_or(false);
  sample.running = flag_in(entry, "running", where);
  return sample;
}

}  // namespace

std::vector<ClockSample> parse_drift_log(std::string_view text, const std::string& where) {
  std::vector<ClockSample> samples;
  std::size_t number = 0;
  for (const std::string_view line : lines(text)) {
    ++number;
    if (!trim(line).empty())
      samples.push_back(sample_in(line, fmt::format("{}:{}", where, number)));
  }
  return samples;
}

std::string drift_log_line(const ClockSample& sample) {
  nlohmann::ordered_json entry;
  entry["shown"] = to_iso(sample.shown);
  entry["reference"] = to_iso(sample.reference);
  entry["daylight_saving"] = sample.daylight_saving;
  entry["running"] = sample.running ? json(*sample.running) : json(nullptr);
  return entry.dump();
}

std::vector<ClockSample> not_logged_yet(const std::vector<ClockSample>& logged,
                                        const std::vector<ClockSample>& more) {
  std::vector<ClockSample> fresh;
  for (const ClockSample& sample : more)
    if (std::none_of(logged.begin(), logged.end(), [&](const ClockSample& old) {
          return old.reference == sample.reference && old.shown == sample.shown;
        }))
      fresh.push_back(sample);
  return fresh;
}

}  // namespace rtcmend
