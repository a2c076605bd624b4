#include "discover/trace.h"

#include <algorithm>
#include <fmt/format.h>
#include <set>

#include "base/error.h"
#include "base/text.h"
#include "discover/doubts.h"
#include "discover/next_dump.h"
#include "discover/trace_checks.h"

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

Mistake mistake_by_check(const std::vector<Step>& session, const Step& wrong) {
  const auto original = std::ranges::find_if(session, [&](const Step& step) {
    return step.name == wrong.name && step.image == wrong.image && step.setting == wrong.setting &&
           step.value == wrong.value;
  });
  return {static_cast<std::size_t>(original - session.begin()),
          fmt::format("{} does not fit the check of all other dumps: it is damaged. It is left out",
                      wrong.name)};
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
  std::vector<Step> steps = without(session, trace.mistakes);
  std::vector<Visit> visits = gather_visits(steps);
  need_a_session(steps, visits);
  if (known_checks.empty()) {
    const auto odd =
        find_checks(steps, question, find_stirring(steps, visits, {}), mixed, watch, trace);
    if (odd) {
      trace.mistakes.push_back(mistake_by_check(session, steps[*odd]));
      steps = without(session, trace.mistakes);
      visits = gather_visits(steps);
    }
  } else {
    take_known_checks(steps, known_checks, trace);
  }
  trace.size = steps.front().image.size();
  trace.rest = steps.front().image;
  trace.still = still_among(steps);

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
