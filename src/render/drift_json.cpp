#include "render/drift_json.h"

#include <cmath>
#include <cstdlib>
#include <fmt/format.h>

namespace rtcmend {

std::string_view verdict_word(DriftVerdict verdict) {
  switch (verdict) {
    case DriftVerdict::within:
      return "within";
    case DriftVerdict::at_the_limit:
      return "at-the-limit";
    case DriftVerdict::outside:
      return "outside";
    case DriftVerdict::too_close:
      return "too-close";
    case DriftVerdict::no_stretch:
      break;
  }
  return "no-stretch";
}

namespace {

std::string_view kind_word(ClockEvent::Kind kind) {
  using Kind = ClockEvent::Kind;
  switch (kind) {
    case Kind::reset:
      return "reset";
    case Kind::stopped:
      return "stopped";
    case Kind::ran_backwards:
      return "ran-backwards";
    case Kind::daylight_saving:
      return "daylight-saving";
    case Kind::month_length:
      return "month-length";
    case Kind::century:
      return "century";
    case Kind::jump:
      break;
  }
  return "jump";
}

}  // namespace

Json drift_json(const Drift& drift) {
  Json json;
  json["ppm"] = drift.ppm ? Json(*drift.ppm) : Json(nullptr);
  json["seconds_per_day"] = drift.ppm ? Json(drift.seconds_per_day) : Json(nullptr);
  json["seconds_per_month"] = drift.ppm ? Json(drift.seconds_per_month) : Json(nullptr);
  json["ppm_uncertainty"] = drift.ppm ? Json(drift.ppm_uncertainty) : Json(nullptr);
  json["verdict"] = verdict_word(drift.verdict);
  json["events"] = Json::array();
  for (const ClockEvent& event : drift.events) {
    Json one;
    one["kind"] = kind_word(event.kind);
    one["reading"] = event.after + 1;
    one["seconds"] = event.seconds;
    one["text"] = event.text;
    json["events"].push_back(one);
  }
  json["readings"] = Json::array();
  for (const ClockSample& sample : drift.samples) {
    Json one;
    one["reference"] = to_iso(sample.reference);
    one["shown"] = to_iso(sample.shown);
    one["ahead"] = ahead(sample);
    json["readings"].push_back(one);
  }
  return json;
}

}  // namespace rtcmend
