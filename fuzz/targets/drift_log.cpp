// A log of clock readings: refused, or read, written and read again the same.
#include "upkeep/drift_log.h"

#include "target.h"

namespace rtcmend::fuzz {

void attempt(std::string_view input) {
  const auto samples = parse_drift_log(input, "fuzz");
  std::string text;
  for (const ClockSample& sample : samples) text += drift_log_line(sample) + "\n";
  must(parse_drift_log(text, "again").size() == samples.size(), "every line reads back");
  if (samples.size() >= 2) drift(samples);
}

}  // namespace rtcmend::fuzz
