// How often discovery claims too much: scripts/figures.sh discovery prints the table of
// docs/figures.md. How many firmwares: RTCMEND_FIRMWARES, 500 when it is not set.

#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <fmt/format.h>

#include "discover/draft.h"
#include "judge/examine.h"
#include "layout/library.h"
#include "layout/load.h"
#include "make/amend.h"
#include "support/unknown_firmware.h"

using namespace rtcmend;
using namespace rtcmend::test;

namespace {

constexpr int unseen = 1000;

struct Claims {
  int runs = 0, rule = 0, place = 0, range = 0, wrong_rule = 0, wrong_range = 0;
  int from_nothing = 0;  // decided although the firmware has no check, or one of another kind
};

struct Fields {
  int settings = 0, found = 0, settled = 0, foreign = 0;
  int drafts = 0, unloadable = 0, judged = 0, broken = 0;
  int amended = 0, proven = 0, proven_and_refused = 0;
};

bool holds_unseen(const Check& check, UnknownMachine& machine) {
  for (int i = 0; i < unseen; ++i) {
    const CheckResult result = evaluate(check, machine.start_anyhow());
    if (result.stored != result.computed) return false;
  }
  return true;
}

bool is_true_rule(const Model& model, const UnknownFirmware& firmware) {
  const auto same = [&](const Check& check) {
    return check.stored_at == firmware.check.stored_at && width(check) == width(firmware.check);
  };
  return same(model.check) || std::ranges::any_of(model.twins, same);
}

void count_solution(const Solution& solution, UnknownMachine& machine, Claims& claims) {
  const UnknownFirmware& firmware = machine.firmware();
  ++claims.runs;
  if (!solution.decided()) return;
  ++claims.rule;
  claims.place += solution.place_decided() ? 1 : 0;
  claims.range += solution.range_decided() ? 1 : 0;
  const Model& model = solution.models.front();
  if (firmware.guard != UnknownFirmware::Guard::inside) {
    // With holes the rule may be right and the range, which is said to be open, is not.
    const bool only_range = firmware.guard == UnknownFirmware::Guard::outside &&
                            !solution.range_decided() && is_true_rule(model, firmware);
    if (!only_range) ++claims.from_nothing;
    return;
  }
  if (solution.range_decided() && !holds_unseen(model.check, machine)) ++claims.wrong_range;
  if (!is_true_rule(model, firmware) && !holds_unseen(model.check, machine)) ++claims.wrong_rule;
}

std::vector<Step> one_at_a_time(UnknownMachine& machine) {
  std::vector<Step> steps;
  const auto take = [&](const std::string& setting, const std::string& value,
                        const std::vector<std::size_t>& values) {
    steps.push_back({setting, value, fmt::format("dump{}", steps.size()), machine.start(values)});
  };
  for (int i = 0; i < 3; ++i) take("", "", machine.rest());
  const auto& settings = machine.firmware().settings;
  for (std::size_t s = 0; s < settings.size(); ++s) {
    for (int round = 0; round < 2; ++round) {
      for (std::size_t v = 0; v < settings[s].codes.size(); ++v) {
        auto values = machine.rest();
        values[s] = v;
        take(settings[s].name, fmt::format("choice {}", static_cast<char>('A' + v)), values);
      }
    }
  }
  return steps;
}

std::vector<Image> images_of(const std::vector<Step>& steps) {
  std::vector<Image> images;
  for (const Step& step : steps) images.push_back(step.image);
  return images;
}

// Everything at once: of every setting another value than in the dump before.
std::vector<Image> everything(UnknownMachine& machine, std::size_t count) {
  std::vector<Image> images;
  const auto& settings = machine.firmware().settings;
  for (std::size_t i = 0; i < count; ++i) {
    std::vector<std::size_t> values;
    for (std::size_t s = 0; s < settings.size(); ++s)
      values.push_back((i * (s % 3 + 1) + i / settings[s].codes.size()) % settings[s].codes.size());
    images.push_back(machine.start(values));
  }
  return images;
}

std::vector<Image> at_random(UnknownMachine& machine, std::size_t count) {
  std::vector<Image> images;
  for (std::size_t i = 0; i < count; ++i) images.push_back(machine.start_anyhow());
  return images;
}

bool is_foreign(const Bit& bit, const UnknownFirmware::Setting& setting) {
  return bit.at != setting.at || ((setting.mask << setting.shift) >> bit.bit & 1) == 0;
}

void count_fields(const Trace& trace, const UnknownFirmware& firmware, Fields& fields) {
  for (const UnknownFirmware::Setting& setting : firmware.settings) {
    ++fields.settings;
    for (const TracedField& field : trace.fields) {
      if (field.is_shared() || field.settings[0] != setting.name) continue;
      ++fields.found;
      if (!field.open.empty()) continue;
      ++fields.settled;
      if (std::ranges::any_of(field.encoding.bits,
                              [&](const Bit& bit) { return is_foreign(bit, setting); }))
        ++fields.foreign;
    }
  }
}

void count_amended(const Layout& layout, const Field& field, UnknownMachine& machine,
                   Fields& fields) {
  if (field.read_only || field.choices.empty()) return;
  const Image amended = amend(machine.start_anyhow(), layout, {{field.id, field.choices[0].name}});
  ++fields.amended;
  if (examine(amended, layout).standing.settings != Standing::Settings::proven) return;
  ++fields.proven;
  if (!machine.accepts(amended)) ++fields.proven_and_refused;
}

void count_draft(const Trace& trace, UnknownMachine& machine, Fields& fields) {
  ++fields.drafts;
  std::optional<Layout> layout;
  try {
    layout = load_layout(draft_layout(trace).layout.dump(), "draft", embedded_text);
  } catch (const std::exception&) {
    ++fields.unloadable;
    return;
  }
  for (int i = 0; i < 10; ++i) {
    ++fields.judged;
    if (examine(machine.start_anyhow(), *layout).standing.settings == Standing::Settings::broken)
      ++fields.broken;
  }
  for (const Field& field : layout->fields) count_amended(*layout, field, machine, fields);
}

int firmwares() {
  const char* given = std::getenv("RTCMEND_FIRMWARES");
  return given != nullptr ? std::atoi(given) : 500;
}

void print_tally(const char* way, const Claims& claims) {
  fmt::print("{:<18}{:>6}{:>8}{:>8}{:>8}{:>14}{:>14}{:>14}\n", way, claims.runs, claims.rule,
             claims.place, claims.range, claims.wrong_rule, claims.wrong_range,
             claims.from_nothing);
}

void print_fields(const char* way, const Fields& f) {
  fmt::print(
      "{}: {} of {} settings found, {} settled, {} of them with a foreign bit; {} of {} "
      "drafts do not load; {} of {} own dumps broken; {} amended, {} proven, {} of those "
      "refused\n",
      way, f.found, f.settings, f.settled, f.foreign, f.unloadable, f.drafts, f.broken, f.judged,
      f.amended, f.proven, f.proven_and_refused);
}

}  // namespace

TEST_CASE("discovery claims nothing that its dumps do not show", "[.][figures]") {
  Claims small, random, advised, all;
  Fields fields, advised_fields;
  const int count = firmwares();
  for (int start = 1; start <= count; ++start) {
    Dice dice(static_cast<std::uint32_t>(start));
    UnknownMachine machine(draw_firmware(dice), static_cast<std::uint32_t>(start));
    INFO("firmware " << start);
    const auto steps = one_at_a_time(machine);
    const auto mixed = everything(machine, 6);
    const auto idle = images_of({steps.begin(), steps.begin() + 3});
    Question question;
    question.restless = bytes_that_differ(idle);
    count_solution(solve(images_of(steps), question), machine, small);
    count_solution(solve(at_random(machine, 8), question), machine, random);
    count_solution(solve(mixed, question), machine, all);
    auto both = images_of(steps);
    both.insert(both.end(), mixed.begin(), mixed.end());
    count_solution(solve(both, question), machine, advised);
    const Trace one = trace(steps, {}, {});
    count_fields(one, machine.firmware(), fields);
    count_draft(one, machine, fields);
    const Trace two = trace(steps, {}, {}, {}, mixed);
    count_fields(two, machine.firmware(), advised_fields);
    count_draft(two, machine, advised_fields);
    if (small.wrong_rule + random.wrong_rule + advised.wrong_rule + all.wrong_rule +
            small.from_nothing + random.from_nothing + advised.from_nothing + all.from_nothing +
            fields.foreign + advised_fields.foreign + fields.proven_and_refused +
            advised_fields.proven_and_refused + fields.broken + advised_fields.broken >
        0)
      fmt::print(stderr, "by firmware {}: {} {} {} {} / {} {} {} {} / {} {} / {} {} / {} {}\n",
                 start, small.wrong_rule, random.wrong_rule, advised.wrong_rule, all.wrong_rule,
                 small.from_nothing, random.from_nothing, advised.from_nothing, all.from_nothing,
                 fields.foreign, advised_fields.foreign, fields.proven_and_refused,
                 advised_fields.proven_and_refused, fields.broken, advised_fields.broken);
  }
  fmt::print("{} firmwares; decided: rule, place, range; wrong: rule, range, from nothing\n",
             count);
  print_tally("small changes", small);
  print_tally("random", random);
  print_tally("advised", advised);
  print_tally("everything at once", all);
  print_fields("small changes", fields);
  print_fields("advised", advised_fields);
  for (const Claims* claims : {&small, &random, &advised, &all}) {
    CHECK(claims->wrong_rule == 0);
    CHECK(claims->wrong_range == 0);
    CHECK(claims->from_nothing == 0);
  }
  for (const Fields* each : {&fields, &advised_fields}) {
    CHECK(each->foreign == 0);
    CHECK(each->unloadable == 0);
    CHECK(each->broken == 0);
    CHECK(each->proven_and_refused == 0);
  }
}
