#include "base/advice.h"

#include <array>
#include <utility>

namespace rtcmend {

namespace {

constexpr std::array<std::pair<Act::Kind, std::string_view>, 19> names{{
    {Act::Kind::set_clock, "set-clock"},
    {Act::Kind::set_field, "set-field"},
    {Act::Kind::set_byte, "set-byte"},
    {Act::Kind::seal, "seal"},
    {Act::Kind::see_repairs, "see-repairs"},
    {Act::Kind::audit_packed, "audit-packed"},
    {Act::Kind::compose, "compose"},
    {Act::Kind::take_back, "take-back"},
    {Act::Kind::identify, "identify"},
    {Act::Kind::show, "show"},
    {Act::Kind::capture, "capture"},
    {Act::Kind::compare, "compare"},
    {Act::Kind::compare_kept, "compare-kept"},
    {Act::Kind::measure_drift, "measure-drift"},
    {Act::Kind::solve, "solve"},
    {Act::Kind::plan, "plan"},
    {Act::Kind::cautions, "cautions"},
    {Act::Kind::list, "list"},
    {Act::Kind::choose, "choose"},
}};

}  // namespace

std::string_view name(Act::Kind kind) {
  for (const auto& [known, name] : names)
    if (known == kind) return name;
  return {};
}

Advice::Advice(std::string words) {
  if (!words.empty()) steps_.push_back({std::move(words), std::nullopt});
}

std::string in_plain_words(const Advice& advice) {
  std::string text;
  for (const AdviceStep& step : advice.steps()) {
    if (step.words.empty()) continue;
    if (!text.empty()) text += text.ends_with('.') ? " " : ". ";
    text += step.words;
    if (step.act) text += '.';
  }
  return text;
}

}  // namespace rtcmend
