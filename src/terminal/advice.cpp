#include "terminal/advice.h"

#include <fmt/format.h>
#include <vector>

#include "base/text.h"
#include "terminal/shell_word.h"

namespace rtcmend {

namespace {

std::string list_command(const Act& act) {
  if (act.subject == "parts") return "rtcmend chips";
  if (act.subject == "fields") return "rtcmend layouts print " + act.value;
  if (act.subject == "board") return "rtcmend board wiring";
  if (act.subject == "ways") return "rtcmend deliver --list";
  return "rtcmend layouts list";
}

std::string choice(const Act& act) {
  if (act.value.empty()) return "--" + act.subject;
  return fmt::format("--{} {}", act.subject, act.value);
}

std::string without_stop(std::string words) {
  if (words.ends_with('.')) words.pop_back();
  return words;
}

}  // namespace

std::string command_for(const Act& act) {
  switch (act.kind) {
    case Act::Kind::set_clock:
      return "rtcmend amend DUMP --clock now -o OUT";
    case Act::Kind::set_field:
      return fmt::format("rtcmend amend DUMP --set {} -o OUT",
                         shell_word(act.subject + "=" + (act.value.empty() ? "VALUE" : act.value)));
    case Act::Kind::set_byte:
      return fmt::format("--byte {}={}", act.subject, act.value);
    case Act::Kind::seal:
      return "rtcmend seal DUMP -o OUT";
    case Act::Kind::see_repairs:
      return "rtcmend verify DUMP";
    case Act::Kind::audit_packed:
      return fmt::format("rtcmend audit --packed {} FILE", act.value);
    case Act::Kind::compose:
      return "rtcmend compose --ask --layout ID -o OUT";
    case Act::Kind::take_back:
      return fmt::format("rtcmend convert DUMP --undo {} -o OUT", act.value);
    case Act::Kind::identify:
      return "rtcmend identify DUMP";
    case Act::Kind::show:
      return "rtcmend show DUMP";
    case Act::Kind::capture:
      return fmt::format("rtcmend capture --as {} -o OUT", act.value.empty() ? "WAY" : act.value);
    case Act::Kind::compare:
      return "rtcmend compare WANTED FOUND";
    case Act::Kind::compare_kept:
      return fmt::format("rtcmend compare WANTED FOUND --after-power-off {}", act.value);
    case Act::Kind::measure_drift:
      return "rtcmend drift DUMP --at now --log LOG";
    case Act::Kind::solve:
      return "rtcmend solve DUMP DUMP ...";
    case Act::Kind::plan:
      return "rtcmend plan";
    case Act::Kind::cautions:
      return "rtcmend plan --cautions";
    case Act::Kind::list:
      return list_command(act);
    case Act::Kind::choose:
      break;
  }
  return choice(act);
}

std::string advice_text(const Advice& advice) {
  std::vector<std::string> sentences;
  for (const AdviceStep& step : advice.steps()) {
    if (!step.act)
      sentences.push_back(step.words);
    else if (step.words.empty())
      sentences.push_back(fmt::format("\"{}\".", command_for(*step.act)));
    else
      sentences.push_back(fmt::format("{} (\"{}\").", step.words, command_for(*step.act)));
  }
  return join(sentences, " ");
}

std::string try_text(const Advice& advice) {
  std::vector<std::string> parts;
  for (const AdviceStep& step : advice.steps()) {
    std::string part = without_stop(step.words);
    if (step.act)
      part += part.empty() ? command_for(*step.act) : " (" + command_for(*step.act) + ")";
    parts.push_back(std::move(part));
  }
  return join(parts, "; ");
}

}  // namespace rtcmend
