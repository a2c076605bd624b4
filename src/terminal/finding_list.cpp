#include "terminal/finding_list.h"

#include <fmt/format.h>

#include "judge/finding_kind.h"

namespace rtcmend {

namespace {

std::string_view title(Family family) {
  switch (family) {
    case Family::reading:
      return "The reading";
    case Family::chip:
      return "The chip";
    case Family::clock:
      return "The clock";
    case Family::settings:
      return "The settings";
    case Family::part:
      break;
  }
  return "The part, where one is named";
}

std::string_view consequence(Effect effect) {
  switch (effect) {
    case Effect::none:
      return "";
    case Effect::misread:
      return "dump misread";
    case Effect::doubted:
      return "dump doubted";
    case Effect::broken:
      return "settings broken";
    case Effect::unproven:
      return "settings unproven";
    case Effect::unset:
      return "clock unset";
    case Effect::stopped:
      break;
  }
  return "clock stopped";
}

}  // namespace

std::string finding_list() {
  std::string text =
      "# What can be noticed about a dump\n\n"
      "Made by `rtcmend manual --findings`. The ids are the same in the text, in JSON and on the "
      "page.\n";
  for (const Family family : all_families) {
    text += fmt::format("\n## {}\n\n| id | severity | makes the | means |\n|---|---|---|---|\n",
                        title(family));
    for (const KindOfFinding& kind : finding_kinds)
      if (kind.family == family)
        text += fmt::format("| `{}` | {} | {} | {} |\n", kind.id, name(kind.severity),
                            consequence(kind.effect), kind.meaning);
  }
  return text;
}

}  // namespace rtcmend
