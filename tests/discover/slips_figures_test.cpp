// One slip of the person at the bench in each session, and what it costs: scripts/figures.sh
// discovery prints the table of docs/figures.md.

#include <algorithm>
#include <catch2/catch.hpp>

#include "discover/trace.h"
#include "discover/unknown_bench.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

// A session with a slip in it. The dumps that are wrong, by number.
struct Slipped {
  std::vector<Step> steps;
  std::vector<std::size_t> wrong;
};

constexpr std::size_t idle = 3;

std::string label_of(const Step& step) {
  return step.setting + "=" + step.value;
}

// A dump of a setting, whose label is not that of the dump before it.
std::size_t draw_step(const std::vector<Step>& steps, Dice& dice) {
  return idle + 1 + dice.below(static_cast<std::uint32_t>(steps.size() - idle - 1));
}

Slipped blank(std::vector<Step> steps, Dice& dice) {
  const std::size_t step = draw_step(steps, dice);
  for (std::size_t at = Image::ram_start; at < steps[step].image.size(); ++at)
    steps[step].image.set(static_cast<Address>(at), 0xFF);
  return {std::move(steps), {step}};
}

Slipped unsaved(std::vector<Step> steps, Dice& dice) {
  const std::size_t step = draw_step(steps, dice);
  steps[step].image = steps[step - 1].image;
  return {std::move(steps), {step}};
}

Slipped exchanged(std::vector<Step> steps, Dice& dice) {
  const std::size_t one = draw_step(steps, dice), other = draw_step(steps, dice);
  if (label_of(steps[one]) == label_of(steps[other])) return exchanged(std::move(steps), dice);
  std::swap(steps[one].image, steps[other].image);
  return {std::move(steps), {one, other}};
}

Slipped mislabelled(std::vector<Step> steps, Dice& dice) {
  const std::size_t one = draw_step(steps, dice), other = draw_step(steps, dice);
  if (label_of(steps[one]) == label_of(steps[other])) return mislabelled(std::move(steps), dice);
  steps[one].setting = steps[other].setting;
  steps[one].value = steps[other].value;
  return {std::move(steps), {one}};
}

// One byte of the memory misread.
Slipped damaged(std::vector<Step> steps, Dice& dice) {
  const std::size_t step = draw_step(steps, dice);
  const auto at = static_cast<Address>(
      Image::ram_start +
      dice.below(static_cast<std::uint32_t>(steps[step].image.size() - Image::ram_start)));
  const auto flipped = static_cast<std::uint8_t>(1 + dice.below(255));
  steps[step].image.set(at, static_cast<std::uint8_t>(steps[step].image[at] ^ flipped));
  return {std::move(steps), {step}};
}

struct SlipCount {
  const char* name;
  Slipped (*slip)(std::vector<Step>, Dice&);
  int sessions = 0, named = 0, good_named = 0, unharmed = 0, only_the_dump = 0, worse = 0,
      foreign = 0;
};

const TracedField* field_of(const Trace& trace, const std::string& setting) {
  for (const TracedField& field : trace.fields)
    if (!field.is_shared() && field.settings[0] == setting) return &field;
  return nullptr;
}

bool is_settled(const TracedField* field) {
  return field != nullptr && field->open.empty();
}

// Whether it settles a field otherwise than the clean session does: a bit of something else.
bool is_wrong(const Trace& clean, const Trace& found) {
  return std::ranges::any_of(found.fields, [&](const TracedField& field) {
    if (field.is_shared() || !field.open.empty()) return false;
    const TracedField* before = field_of(clean, field.settings[0]);
    return before != nullptr && !std::ranges::all_of(field.encoding.bits, [&](const Bit& bit) {
             return std::ranges::count(before->encoding.bits, bit) != 0;
           });
  });
}

// Whether all that the clean session settles is settled all the same.
bool is_unharmed(const Trace& clean, const Trace& found) {
  const auto settled = [](const Model& model) { return model.is_settled(); };
  if (std::ranges::any_of(clean.checks, settled) && !std::ranges::any_of(found.checks, settled))
    return false;
  return std::ranges::all_of(clean.fields, [&](const TracedField& field) {
    if (field.is_shared() || !field.open.empty()) return true;
    return is_settled(field_of(found, field.settings[0]));
  });
}

// What the person would have who had never taken the wrong dumps: more than this a slip may not
// cost.
Trace trace_without(const Slipped& slipped) {
  std::vector<Step> rest;
  for (std::size_t step = 0; step < slipped.steps.size(); ++step)
    if (std::ranges::count(slipped.wrong, step) == 0) rest.push_back(slipped.steps[step]);
  return trace(rest, {}, {});
}

void count_slip(const std::vector<Step>& steps, const Trace& clean, Dice& dice, SlipCount& tally) {
  const Slipped slipped = tally.slip(steps, dice);
  const Trace found = trace(slipped.steps, {}, {});
  ++tally.sessions;
  std::vector<std::size_t> named;
  for (const Mistake& mistake : found.mistakes) named.push_back(mistake.step);
  const auto is_bad = [&](std::size_t step) {
    return std::ranges::count(slipped.wrong, step) != 0;
  };
  if (std::ranges::all_of(slipped.wrong,
                          [&](std::size_t step) { return std::ranges::count(named, step) != 0; }))
    ++tally.named;
  if (!std::ranges::all_of(named, is_bad)) ++tally.good_named;
  if (is_wrong(clean, found)) ++tally.foreign;
  if (is_unharmed(clean, found))
    ++tally.unharmed;
  else if (is_unharmed(trace_without(slipped), found))
    ++tally.only_the_dump;
  else
    ++tally.worse;
}

}  // namespace

TEST_CASE("discovery names the bad dump of a session and uses the rest", "[.][figures]") {
  SlipCount tallies[] = {{"blank", blank},
                         {"not saved", unsaved},
                         {"exchanged", exchanged},
                         {"another's label", mislabelled},
                         {"damaged", damaged}};
  int clean_named = 0;
  for (std::uint32_t number = 1; number <= firmwares(); ++number) {
    UnknownMachine machine = machine_number(number);
    Dice dice(20000 + number);
    const auto steps = one_at_a_time(machine);
    const Trace clean = trace(steps, {}, {});
    clean_named += clean.mistakes.empty() ? 0 : 1;
    for (SlipCount& tally : tallies) count_slip(steps, clean, dice, tally);
  }
  fmt::print("good sessions in which a dump is named: {}\n", clean_named);
  fmt::print(
      "| slip | sessions | named | a good dump named | as without a slip | as without that dump | "
      "less | a foreign bit settled |\n");
  for (const SlipCount& t : tallies)
    fmt::print("| {} | {} | {} | {} | {} | {} | {} | {} |\n", t.name, t.sessions, t.named,
               t.good_named, t.unharmed, t.only_the_dump, t.worse, t.foreign);
  CHECK(clean_named == 0);
  for (const SlipCount& tally : tallies) {
    INFO(tally.name);
    CHECK(tally.foreign == 0);
  }
}
