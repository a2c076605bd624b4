#include "discover/trace.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <set>

#include "base/error.h"
#include "base/text.h"
#include "discover/doubts.h"
#include "discover/next_dump.h"

namespace rtcmend {

namespace {

void need_a_session(const std::vector<Step>& steps, const std::vector<Visit>& visits) {
  if (steps.empty()) refuse("session", "it has no steps");
  for (const Step& step : steps)
    if (step.image.size() != steps.front().image.size())
      refuse(step.name, fmt::format("it holds {} bytes, {} holds {}", step.image.size(),
                                    steps.front().name, steps.front().image.size()));
  const bool any_change = std::ranges::any_of(visits, [&](const Visit& visit) {
    return !visit.setting.empty() && std::ranges::any_of(visits, [&](const Visit& other) {
      return other.setting == visit.setting && other.value != visit.value;
    });
  });
  if (!any_change)
    refuse("session", "no setting appears with two different values, so nothing can follow it",
           "dump, change one setting, dump again, and label both dumps");
}

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

void find_checks(const std::vector<Step>& steps, Question question, const Stirring& stirring,
                 std::span<const Image> mixed, const Watch& watch, Trace& trace) {
  std::vector<Image> images = without_clock(steps);
  images.insert(images.end(), mixed.begin(), mixed.end());
  if (!differ_anywhere(images)) return;
  question.restless.insert(question.restless.end(), stirring.restless.begin(),
                           stirring.restless.end());
  const Solution solution = solve(images, question, watch);
  trace.complete = solution.complete;
  trace.checks = proven_among(steps, solution.models);
  if (trace.checks.empty()) trace.checks = guessed_among(steps, solution.models);
  if (!trace.checks.empty()) return;
  for (const Space& space : solution.spaces)
    if (space.more_dumps > 0)
      trace.notes.push_back(fmt::format(
          "No check was found; {}-bit checks need {} more dumps that say something new.",
          space.width, space.more_dumps));
  if (trace.notes.empty())
    trace.notes.push_back("No check was found: every kind was tried, and none holds in all dumps.");
}

bool holds_everywhere(const Check& check, const std::vector<Step>& steps) {
  return std::ranges::all_of(steps, [&](const Step& step) {
    const CheckResult result = evaluate(check, step.image);
    return !result.counts || (result.stored && result.stored == result.computed);
  });
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

Addresses check_bytes_of(const std::vector<Model>& checks) {
  Addresses bytes;
  for (const Model& model : checks)
    for (const Address at : stored_addresses(model.check)) bytes.push_back(at);
  return bytes;
}

Addresses still_among(const std::vector<Step>& steps) {
  Addresses still;
  for (std::size_t i = Image::ram_start; i < steps.front().image.size(); ++i) {
    const auto at = static_cast<Address>(i);
    const bool same = std::ranges::all_of(steps, [&](const Step& step) {
      return step.image.known(at) && step.image[at] == steps.front().image[at];
    });
    if (same) still.push_back(at);
  }
  return still;
}

FreeBits free_bits(const Stirring& stirring, const Following& following) {
  FreeBits bits;
  for (const bool settled : stirring.settled) bits.free.emplace_back(8, settled);
  const auto take = [&](const std::vector<Bit>& taken) {
    for (const Bit& bit : taken) bits.free[bit.at][bit.bit] = false;
  };
  for (const Follower& follower : following.followers) take(follower.bits);
  for (const Shared& shared : following.shared) take(shared.bits);
  return bits;
}

// The values of some settings, where their dumps agree about these bits.
std::vector<Sample> samples_of(const std::vector<Step>& steps, const std::vector<Visit>& visits,
                               const Stirring& stirring, const std::vector<std::string>& settings,
                               const std::vector<Bit>& bits) {
  std::vector<Sample> samples;
  for (std::size_t i = 0; i < visits.size(); ++i) {
    const Visit& visit = visits[i];
    if (std::ranges::count(settings, visit.setting) == 0) continue;
    const bool agrees =
        std::ranges::all_of(bits, [&](const Bit& bit) { return stirring.agrees[bit.at][i]; });
    if (!agrees) continue;
    samples.push_back({settings.size() == 1 ? visit.value : visit.setting + "=" + visit.value,
                       &steps[visit.steps.front()].image, visit.steps.size()});
  }
  return samples;
}

TracedField make_field(std::vector<std::string> settings, const std::vector<Bit>& bits,
                       const std::vector<Sample>& samples, const FreeBits& is_free) {
  TracedField field;
  field.settings = std::move(settings);
  field.encoding = find_encoding(bits, samples, is_free);
  for (const Sample& sample : samples)
    field.values.push_back(
        {sample.value, raw_of(field.encoding.bits, *sample.image), sample.dumps});
  return field;
}

void note_drags(const Following& following, std::vector<TracedField>& fields) {
  for (const Follower& follower : following.followers) {
    for (TracedField& field : fields) {
      if (field.is_shared()) continue;
      if (field.settings[0] == follower.setting) field.drags = follower.drags;
      if (std::ranges::count(follower.drags, field.settings[0]) != 0)
        field.dragged_by.push_back(follower.setting);
    }
  }
}

void note_missing(const std::vector<Visit>& visits, Trace& trace) {
  const bool idle = std::ranges::any_of(
      visits, [](const Visit& visit) { return visit.setting.empty() && visit.steps.size() > 1; });
  if (!idle)
    trace.notes.push_back(
        "No two dumps with nothing changed: what changes by itself may pass for a setting.");
  const bool once = std::ranges::any_of(
      visits, [](const Visit& visit) { return !visit.setting.empty() && visit.steps.size() == 1; });
  if (once)
    trace.notes.push_back(
        "Some values were dumped only once: a second round tells chance from setting.");
}

}  // namespace

Trace trace(const std::vector<Step>& session, const Question& question,
            const std::vector<Check>& known_checks, const Watch& watch,
            std::span<const Image> mixed, const Addresses& hidden) {
  need_a_session(session, gather_visits(session));
  Trace trace;
  trace.mistakes = find_mistakes(session);
  const std::vector<Step> steps = without(session, trace.mistakes);
  const std::vector<Visit> visits = gather_visits(steps);
  need_a_session(steps, visits);
  trace.size = steps.front().image.size();
  trace.rest = steps.front().image;
  trace.still = still_among(steps);
  if (known_checks.empty())
    find_checks(steps, question, find_stirring(steps, visits, {}), mixed, watch, trace);
  else
    take_known_checks(steps, known_checks, trace);

  Addresses passed_over = check_bytes_of(trace.checks);
  passed_over.insert(passed_over.end(), hidden.begin(), hidden.end());
  const Stirring stirring = find_stirring(steps, visits, passed_over);
  trace.restless = stirring.restless;
  trace.contradictions = stirring.contradictions;
  const Following following = find_following(steps, visits, stirring);
  const FreeBits is_free = free_bits(stirring, following);
  for (const Follower& follower : following.followers) {
    if (follower.bits.empty()) {
      trace.silent.push_back(follower.setting);
      continue;
    }
    const auto samples = samples_of(steps, visits, stirring, {follower.setting}, follower.bits);
    trace.fields.push_back(make_field({follower.setting}, follower.bits, samples, is_free));
  }
  for (const Shared& shared : following.shared) {
    const auto samples = samples_of(steps, visits, stirring, shared.settings, shared.bits);
    trace.fields.push_back(make_field(shared.settings, shared.bits, samples, is_free));
  }
  note_drags(following, trace.fields);
  settle_fields(steps, mixed, trace);
  note_missing(visits, trace);
  if (!hidden.empty())
    trace.notes.push_back(
        fmt::format("{} belong to a password and were passed over.", to_prose(hidden)));
  trace.next = advise_next(steps, trace);
  return trace;
}

}  // namespace rtcmend
