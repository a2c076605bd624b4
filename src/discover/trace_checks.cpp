#include "discover/trace_checks.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <set>

#include "base/text.h"

namespace rtcmend {

namespace {

// Clock bytes tick: no check over them would last a second, and no setting lives there.
std::vector<Image> without_clock(const std::vector<Step>& steps) {
  std::vector<Image> images;
  for (const Step& step : steps) {
    images.push_back(step.image);
    for (Address at = 0; at < Image::ram_start; ++at) images.back().forget(at);
  }
  return images;
}

bool differ_anywhere(const std::vector<Image>& images) {
  return std::ranges::any_of(images, [&](const Image& image) { return image != images.front(); });
}

// How many settings move a stored byte. A check feels most of them; a field, or its copy, one.
std::size_t settings_felt(const std::vector<Step>& steps, const Check& check) {
  std::set<std::string> felt;
  const Addresses stored = stored_addresses(check);
  for (const Step& a : steps)
    for (const Step& b : steps)
      if (a.setting == b.setting && a.value != b.value &&
          std::ranges::any_of(stored, [&](Address at) { return a.image[at] != b.image[at]; }))
        felt.insert(a.setting);
  return felt.size();
}

bool overlaps(const Check& check, const std::vector<Model>& accepted) {
  const Addresses stored = stored_addresses(check);
  return std::ranges::any_of(accepted, [&](const Model& model) {
    return std::ranges::any_of(stored_addresses(model.check),
                               [&](Address at) { return std::ranges::count(stored, at) != 0; });
  });
}

std::size_t count_settings(const std::vector<Step>& steps) {
  std::set<std::string> settings;
  for (const Step& step : steps)
    if (!step.setting.empty()) settings.insert(step.setting);
  return settings.size();
}

// An xor holds seen from either end of its row. The stored byte is the one that most settings move.
void choose_place(const std::vector<Step>& steps, Model& model) {
  for (Check& twin : model.twins) {
    if (settings_felt(steps, twin) <= settings_felt(steps, model.check)) continue;
    std::swap(model.check, twin);
    model.firsts = {model.check.over.front().range.first, model.check.over.front().range.first};
    model.lasts = {model.check.over.back().range.last, model.check.over.back().range.last};
  }
}

bool covers_stored(const Check& check, const Check& other) {
  const Addresses covered = covered_addresses(check);
  return std::ranges::any_of(stored_addresses(other),
                             [&](Address at) { return std::ranges::count(covered, at) != 0; });
}

// Whether checks cover each other in a circle, so that no order seals them all: then one of them
// is another seen from the wrong byte.
bool go_in_a_circle(std::vector<Check> checks) {
  for (bool any = true; any;) {
    any = false;
    for (std::size_t i = 0; i < checks.size() && !any; ++i) {
      any = std::ranges::none_of(checks, [&](const Check& other) {
        return &other != &checks[i] && covers_stored(checks[i], other);
      });
      if (any) checks.erase(checks.begin() + static_cast<std::ptrdiff_t>(i));
    }
  }
  return !checks.empty();
}

bool closes_a_circle(const Check& check, const std::vector<Model>& accepted) {
  std::vector<Check> checks = {check};
  for (const Model& model : accepted) checks.push_back(model.check);
  return go_in_a_circle(std::move(checks));
}

std::vector<Model> proven_among(const std::vector<Step>& steps, const std::vector<Model>& models) {
  const std::size_t needed = std::min<std::size_t>(3, count_settings(steps));
  std::vector<Model> proven;
  for (Model model : models) {
    choose_place(steps, model);
    if (model.found() && settings_felt(steps, model.check) >= needed &&
        !overlaps(model.check, proven) && !closes_a_circle(model.check, proven))
      proven.push_back(std::move(model));
  }
  return proven;
}

// Nothing is proven, but a byte that several settings move and that a customary check explains is
// no field: better to say "perhaps a check" than to call it one.
std::vector<Model> guessed_among(const std::vector<Step>& steps, const std::vector<Model>& models) {
  for (const Model& model : models) {
    const bool customary = total(model.habits) > std::max(0.0, std::log2(model.chance));
    if (!model.copy && customary && settings_felt(steps, model.check) >= 2) return {model};
  }
  return {};
}

// A dump that no check fits, while one fits all others. Returns it when it is one of the steps, and
// can be done without: another dump of the same label is under the check, and where this one shows
// what no other does, that one does not.
std::optional<std::size_t> judge_odd(const std::vector<Step>& steps, const OddDump& odd,
                                     Trace& trace) {
  const bool is_step = odd.dump < steps.size();
  const auto labelled_alike = [&](const Step& step) {
    return step.setting == steps[odd.dump].setting && step.value == steps[odd.dump].value;
  };
  if (is_step && std::ranges::count_if(steps, labelled_alike) > 1) return odd.dump;
  const std::string name =
      is_step ? steps[odd.dump].name : fmt::format("Mixed dump {}", odd.dump - steps.size() + 1);
  if (odd.alone.empty())
    trace.notes.push_back(fmt::format("{} does not fit the check of all other dumps.", name));
  else
    trace.notes.push_back(fmt::format(
        "A check holds in all dumps but {}, which alone shows another {}: it is damaged, or the "
        "check leaves that out. Take the dump once more.",
        name, to_prose(odd.alone)));
  return std::nullopt;
}

bool holds_everywhere(const Check& check, const std::vector<Step>& steps) {
  return std::ranges::all_of(steps, [&](const Step& step) {
    const CheckResult result = evaluate(check, step.image);
    return !result.counts || (result.stored && result.stored == result.computed);
  });
}

}  // namespace

std::optional<std::size_t> find_checks(const std::vector<Step>& steps, Question question,
                                       const Stirring& stirring, std::span<const Image> mixed,
                                       const Watch& watch, Trace& trace) {
  std::vector<Image> images = without_clock(steps);
  images.insert(images.end(), mixed.begin(), mixed.end());
  if (!differ_anywhere(images)) return std::nullopt;
  question.restless.insert(question.restless.end(), stirring.restless.begin(),
                           stirring.restless.end());
  const Solution solution = solve(images, question, watch);
  trace.complete = solution.complete;
  std::optional<std::size_t> odd;
  if (solution.odd) {
    odd = judge_odd(steps, *solution.odd, trace);
    if (!odd && !solution.odd->alone.empty()) return std::nullopt;
  }
  trace.checks = proven_among(steps, solution.models);
  if (trace.checks.empty()) trace.checks = guessed_among(steps, solution.models);
  if (!trace.checks.empty()) return odd;
  for (const Space& space : solution.spaces)
    if (space.more_dumps > 0)
      trace.notes.push_back(fmt::format(
          "No check was found; {}-bit checks need {} more dumps that say something new.",
          space.width, space.more_dumps));
  if (trace.notes.empty())
    trace.notes.push_back("No check was found: every kind was tried, and none holds in all dumps.");
  return std::nullopt;
}

void take_known_checks(const std::vector<Step>& steps, const std::vector<Check>& known,
                       Trace& trace) {
  for (const Check& check : known) {
    if (holds_everywhere(check, steps)) {
      Model model;
      model.check = check;
      model.wordings = {check.rule};
      trace.checks.push_back(std::move(model));
    } else {
      trace.notes.push_back(
          fmt::format("The layout's check {} does not hold in every dump.", check.id));
    }
  }
}

}  // namespace rtcmend
