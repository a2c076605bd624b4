#include "discover/next_dump.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"

namespace rtcmend {

namespace {

// More names than these are not read.
constexpr std::size_t most_names = 6;

std::string names_in_words(const std::vector<std::string>& names) {
  std::vector<std::string> some(names.begin(), names.begin() + static_cast<std::ptrdiff_t>(std::min(
                                                                   names.size(), most_names)));
  const std::string words = join(some, ", ");
  return names.size() > most_names ? fmt::format("{} and {} more", words, names.size() - most_names)
                                   : words;
}

std::vector<std::string> settings_of(const std::vector<Step>& steps) {
  std::vector<std::string> names;
  for (const Step& step : steps)
    if (!step.setting.empty() && std::ranges::count(names, step.setting) == 0)
      names.push_back(step.setting);
  return names;
}

bool has_settled_check(const Trace& trace) {
  return std::ranges::any_of(trace.checks, [](const Model& model) { return model.is_settled(); });
}

void ask_about_check(const std::vector<Step>& steps, const Trace& trace,
                     std::vector<std::string>& next) {
  if (has_settled_check(trace)) return;
  next.push_back(
      fmt::format("for the check, change everything at once: {} each to another value, to large "
                  "ones where there is a choice. Save, dump, and do it twice more with other "
                  "values; these dumps are mixed ones, without a label",
                  names_in_words(settings_of(steps))));
}

void ask_about_fields(const Trace& trace, std::vector<std::string>& next) {
  for (const TracedField& field : trace.fields) {
    const std::string name = names_in_words(field.settings);
    if (field.encoding.digits_open)
      next.push_back(fmt::format(
          "set {} to a value above 9, where there is one: it tells a number from decimal digits",
          name));
    if (field.is_shared() && !field.is_count)
      next.push_back(
          fmt::format("change {} both at once, and keep the dump as a mixed one: it "
                      "shows what {} makes of them",
                      name, hex_prose(field.encoding.bits.front().at)));
  }
}

void ask_about_rounds(const std::vector<Step>& steps, std::vector<std::string>& next) {
  std::vector<std::string> once;
  for (const Visit& visit : gather_visits(steps))
    if (!visit.setting.empty() && visit.steps.size() == 1 &&
        std::ranges::count(once, visit.setting) == 0)
      once.push_back(visit.setting);
  if (!once.empty())
    next.push_back(fmt::format("go through the values of {} once more, one setting at a time",
                               names_in_words(once)));
}

}  // namespace

std::vector<std::string> advise_next(const std::vector<Step>& steps, const Trace& trace) {
  std::vector<std::string> next;
  ask_about_check(steps, trace, next);
  ask_about_fields(trace, next);
  ask_about_rounds(steps, next);
  return next;
}

}  // namespace rtcmend
