#include "codes/forecast.h"

#include "cli/commands.h"
#include "cli/dump_source.h"
#include "cli/print.h"
#include "render/diagnosis_json.h"
#include "terminal/diagnosis.h"

namespace rtcmend {

namespace {

struct ForecastOptions {
  DumpSource source;
  Voice voice;
};

int forecast_codes(const ForecastOptions& given) {
  const Judged judged(given.source);
  const auto codes = forecast(judged.examination, judged.opened.layout);
  if (given.voice.json)
    print_json(forecast_json(codes));
  else
    print(forecast_text(codes, given.voice.ink()));
  return codes.empty() ? exit_good : exit_bad;
}

}  // namespace

Action set_up_forecast(Options& options) {
  auto given = std::make_shared<ForecastOptions>();
  add_dump(options, given->source);
  add_voice(options, given->voice);
  options.example("rtcmend forecast dump.bin");
  return [given] { return forecast_codes(*given); };
}

}  // namespace rtcmend
