#include "codes/forecast.h"

#include "cli/commands.h"
#include "cli/dump_source.h"
#include "cli/part_option.h"
#include "cli/print.h"
#include "render/diagnosis_json.h"
#include "terminal/diagnosis.h"
#include "terminal/heading.h"

namespace rtcmend {

namespace {

struct ForecastOptions {
  DumpSource source;
  std::string part;
  Voice voice;
};

int forecast_codes(const ForecastOptions& given) {
  check_part(given.part);
  Opened opened = open_dump(given.source);
  opened.examination =
      with_part(std::move(opened.examination), given.part, opened.dump.image, *opened.layout);
  const Forecast foretold = forecast(opened.examination, *opened.layout);
  if (given.voice.json) {
    Json json = forecast_json(foretold);
    add_layout(opened.layout.get(), json);
    print_json(json);
  } else {
    print(layout_mark(*opened.layout) + forecast_text(foretold, given.voice.ink()));
  }
  return foretold.codes.empty() && !foretold.misread ? exit_good : exit_bad;
}

}  // namespace

Action set_up_forecast(Options& options) {
  auto given = std::make_shared<ForecastOptions>();
  add_dump(options, given->source);
  add_part(options, given->part);
  add_voice(options, given->voice);
  options.example("rtcmend forecast dump.bin");
  options.example("rtcmend forecast dump.bin --part MC146818A");
  return [given] { return forecast_codes(*given); };
}

}  // namespace rtcmend
