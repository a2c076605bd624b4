#include "render/retention_json.h"

#include <fmt/format.h>

namespace rtcmend {

namespace {

std::string_view verdict_word(Retained what) {
  switch (what) {
    case Retained::everything:
      return "kept";
    case Retained::nothing:
      return "all-lost";
    case Retained::cleared:
      return "ram-cleared";
    case Retained::a_few_bits_lost:
      return "few-bits-lost";
    case Retained::much_lost:
      return "much-lost";
    case Retained::clock_lost:
      return "clock-lost";
    case Retained::firmware_rewrote:
      return "firmware-rewrote";
    case Retained::changes_by_read:
      break;
  }
  return "unstable-reads";
}

std::string_view clock_word(ClockKept clock) {
  switch (clock) {
    case ClockKept::kept:
      return "kept";
    case ClockKept::stood_still:
      return "stood-still";
    case ClockKept::lost:
      return "lost";
    case ClockKept::off:
      return "off";
    case ClockKept::unknown:
      break;
  }
  return "unknown";
}

}  // namespace

Json retention_json(const Retention& retention) {
  Json json;
  json["verdict"] = verdict_word(retention.what);
  json["text"] = retention.text;
  json["next"] = in_plain_words(retention.next);
  json["bits"] = Json::array();
  for (const LostBit& bit : retention.bits) {
    Json one;
    one["at"] = bit.at;
    one["bit"] = bit.bit;
    one["wanted"] = bit.wanted ? 1 : 0;
    json["bits"].push_back(one);
  }
  json["changed"] = retention.changed;
  json["hidden"] = retention.hidden;
  json["clock"] = clock_word(retention.clock);
  json["clock_text"] = retention.clock_text;
  json["cell_low"] = retention.cell_low;
  return json;
}

}  // namespace rtcmend
