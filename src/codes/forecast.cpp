#include "codes/forecast.h"

#include <algorithm>
#include <utility>

namespace rtcmend {

namespace {

Foretold foretell(const PostCode& code, const Examination& examination, const Layout& layout) {
  Foretold foretold{&code, {}, {}};
  for (const Cause& cause : code.causes) {
    const auto seen = symptoms_seen(cause, examination, layout);
    if (seen.empty()) continue;
    foretold.why.push_back(cause.text);
    for (const std::string& id : seen)
      if (std::find(foretold.because.begin(), foretold.because.end(), id) == foretold.because.end())
        foretold.because.push_back(id);
  }
  return foretold;
}

}  // namespace

Forecast forecast(const Examination& examination, const Layout& layout) {
  if (examination.standing.dump == Standing::Dump::misread) return {{}, true};
  std::vector<Foretold> codes;
  for (const PostCode& code : post_codes()) {
    Foretold foretold = foretell(code, examination, layout);
    if (!foretold.because.empty()) codes.push_back(std::move(foretold));
  }
  std::stable_sort(codes.begin(), codes.end(), [](const Foretold& a, const Foretold& b) {
    return a.code->turn < b.code->turn;
  });
  return {std::move(codes), false};
}

}  // namespace rtcmend
