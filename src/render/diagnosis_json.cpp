#include "render/diagnosis_json.h"

#include <fmt/format.h>

#include "base/text.h"
#include "render/list_json.h"

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
  return list_json(suspects, [](const Suspect& suspect) {
    Json one;
    one["id"] = suspect.id;
    one["text"] = suspect.text;
    one["odds"] = suspect.odds;
    one["changes"] = list_json(suspect.changes, patch_json);
    one["mends"] = suspect.mends;
    one["settles"] = suspect.settles;
    return one;
  });
}

Json none_json(const std::vector<Suspect>& suspects) {
  return list_json(none_of_these(suspects), [](const OpenShare& open) {
    Json one;
    one["mends"] = open.mends;
    one["odds"] = open.odds;
    return one;
  });
}

Json forecast_json(const Forecast& forecast) {
  Json json;
  json["codes"] = list_json(forecast.codes, [](const Foretold& foretold) {
    Json one;
    one["code"] = foretold.code->code;
    one["means"] = foretold.code->means;
    one["because"] = foretold.because;
    one["why"] = foretold.why;
    one["do"] = in_plain_words(foretold.code->remedy);
    return one;
  });
  json["cannot_promise"] = list_json(forecast.unsettled, [](const Unpromised& unsettled) {
    Json one;
    one["text"] = unsettled.text;
    one["because"] = unsettled.because;
    return one;
  });
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
    one["causes"] = list_json(code.causes, [](const ExplainedCause& cause) {
      Json reason;
      reason["text"] = cause.text;
      reason["seen"] = cause.seen;
      return reason;
    });
    one["do"] = known != nullptr ? Json(in_plain_words(known->remedy)) : Json(nullptr);
    one["source"] = known != nullptr ? Json(known->source) : Json(nullptr);
    json["codes"].push_back(std::move(one));
  }
  json["order"] = explanation.order;
  return json;
}

}  // namespace rtcmend
