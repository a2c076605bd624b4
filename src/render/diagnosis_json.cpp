#include "render/diagnosis_json.h"

#include <fmt/format.h>

#include "base/text.h"

namespace rtcmend {

namespace {

Json patch_json(const Patch& patch) {
  Json json;
  json["at"] = patch.at;
  json["from"] = patch.from;
  json["to"] = patch.to;
  return json;
}

}  // namespace

Json suspects_json(const std::vector<Suspect>& suspects) {
  Json json = Json::array();
  for (const Suspect& suspect : suspects) {
    Json one;
    one["id"] = suspect.id;
    one["text"] = suspect.text;
    one["odds"] = suspect.odds;
    one["changes"] = Json::array();
    for (const Patch& patch : suspect.changes) one["changes"].push_back(patch_json(patch));
    one["mends"] = suspect.mends;
    json.push_back(std::move(one));
  }
  return json;
}

Json forecast_json(const Forecast& forecast) {
  Json json;
  json["codes"] = Json::array();
  for (const Foretold& foretold : forecast.codes) {
    Json one;
    one["code"] = foretold.code->code;
    one["means"] = foretold.code->means;
    one["because"] = foretold.because;
    one["why"] = foretold.why;
    one["do"] = in_plain_words(foretold.code->remedy);
    json["codes"].push_back(std::move(one));
  }
  json["cannot_promise"] = Json::array();
  for (const Unpromised& unsettled : forecast.unsettled) {
    Json one;
    one["text"] = unsettled.text;
    one["because"] = unsettled.because;
    json["cannot_promise"].push_back(std::move(one));
  }
  json["misread"] = forecast.misread;
  return json;
}

Json explain_json(const Explanation& explanation) {
  Json json;
  json["codes"] = Json::array();
  for (const ExplainedCode& code : explanation.codes) {
    const PostCode* known = code.known;
    Json one;
    one["code"] = code.code;
    one["known"] = known != nullptr;
    one["chip"] = known != nullptr ? Json(known->chip) : Json(nullptr);
    one["look_at"] = known != nullptr && !known->chip ? Json(known->look_at) : Json(nullptr);
    one["means"] = known != nullptr ? Json(known->means) : Json(nullptr);
    one["causes"] = Json::array();
    for (const ExplainedCause& cause : code.causes) {
      Json reason;
      reason["text"] = cause.text;
      reason["seen"] = cause.seen;
      one["causes"].push_back(std::move(reason));
    }
    one["do"] = known != nullptr ? Json(in_plain_words(known->remedy)) : Json(nullptr);
    one["source"] = known != nullptr ? Json(known->source) : Json(nullptr);
    json["codes"].push_back(std::move(one));
  }
  json["order"] = explanation.order;
  return json;
}

}  // namespace rtcmend
