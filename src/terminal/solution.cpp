#include "terminal/solution.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

#include "base/text.h"
#include "terminal/columns.h"

namespace rtcmend {

namespace {

// A list longer than this is not read.
constexpr std::size_t most_models_told = 8;

// 180000000000 is 1.8e+11 to read; small ones keep their plain shape.
std::string quantity(double count) {
  if (count >= 0.01 && count < 100000) return fmt::format("{:.2g}", count);
  if (count >= 100000) return fmt::format("{:.1e}", count);
  return count == 0 ? "0" : fmt::format("{:.1e}", count);
}

// Dumps decide about what they changed: whether the check covers that, nobody knows beforehand.
std::string enough_or_not(const Space& space) {
  if (space.more_dumps == 0) return "enough, for what changed";
  return fmt::format("{} more needed", space.more_dumps);
}

std::string space_line(const Space& space) {
  if (space.models == 0) return "";
  return fmt::format("  {:>2} bits {:>12} {:>12} {:>14}   {}\n", space.width,
                     quantity(space.models), quantity(space.by_luck), space.decide,
                     enough_or_not(space));
}

std::string arithmetic(const Solution& solution) {
  std::string text = counted(solution.dumps, "different dump");
  if (solution.repeats > 0)
    text += fmt::format(" ({} left out: equal to another)", solution.repeats);
  text += ".\n\n  check       possible      by luck   dumps decide   these dumps\n";
  for (const Space& space : solution.spaces) text += space_line(space);
  return text + "\n";
}

std::string wordings_of(const Model& model) {
  std::vector<std::string> others;
  for (std::size_t i = 1; i < model.wordings.size(); ++i)
    others.push_back(describe(model.wordings[i]));
  return join(others, "; ");
}

std::string line(std::string_view label, const std::string& text) {
  constexpr std::size_t column = 20;
  return fmt::format("  {:<18}{}\n", dotted(label, column - 3), hanging(text, column));
}

std::string family_in_words(const Model& model) {
  return fmt::format(
      "{}, over ranges that begin at {} and end at {}: the dumps cannot tell them apart",
      counted(model.family.size(), "model"), to_prose(to_addresses(model.firsts)),
      to_prose(to_addresses(model.lasts)));
}

std::string checks_in_words(const std::vector<Check>& checks) {
  std::vector<std::string> words;
  words.reserve(checks.size());
  for (const Check& check : checks) words.push_back(check_in_words(check));
  return join(words, "; ");
}

std::string habits_in_words(const Model& model, bool speaking_for) {
  std::vector<std::string> words;
  for (const Habit& habit : model.habits)
    if ((habit.bits > 0) == speaking_for) words.push_back(habit.text);
  return join(words, ", ");
}

std::string crc_parameters(const Check& check) {
  const auto* crc = std::get_if<CrcRule>(&check.rule);
  if (crc == nullptr) return "";
  const CrcModel& model = crc->model;
  const int digits = model.width == 8 ? 2 : 4;
  return fmt::format("start {:0{}X}h, bits in {}, bits out {}, final xor {:0{}X}h", model.init,
                     digits, model.refin ? "mirrored" : "as they are",
                     model.refout ? "mirrored" : "as they are", model.xorout, digits);
}

std::string verdict(const Model& model) {
  if (model.copy)
    return "yet all of it moves in step, as counters and copies do, so it proves nothing";
  if (model.half_proven)
    return "yet one of its two bytes never changed, and nothing proves 16 bits";
  return model.found() ? "this is no luck" : "it may be luck";
}

std::string model_text(const Model& model, std::size_t number, const Ink& ink) {
  const std::string head = fmt::format("{}. {}", number, check_in_words(model.check));
  std::string text = ink(Tone::strong, hanging(head, 3)) + "\n";
  text += line("chance", fmt::format("{} models would fit by luck: {}", quantity(model.chance),
                                     verdict(model)));
  if (const std::string crc = crc_parameters(model.check); !crc.empty()) text += line("CRC", crc);
  if (model.family.size() > 1) text += line("family", family_in_words(model));
  if (model.wordings.size() > 1) text += line("the same as", wordings_of(model));
  if (!model.twins.empty()) text += line("or, the same", checks_in_words(model.twins));
  if (!model.siblings.empty()) text += line("or as likely", checks_in_words(model.siblings));
  if (!model.wider.empty()) text += line("or, wider", checks_in_words(model.wider));
  if (const auto words = habits_in_words(model, true); !words.empty())
    text += line("for it", words);
  if (const auto words = habits_in_words(model, false); !words.empty())
    text += line("against it", words);
  return text + "\n";
}

std::size_t least_missing(const Solution& solution) {
  std::size_t least = 0;
  for (const Space& space : solution.spaces)
    if (space.more_dumps > 0 && (least == 0 || space.more_dumps < least)) least = space.more_dumps;
  return least;
}

// What is open about the rule of a model that is no luck.
std::string open_rule_in_words(const Model& model) {
  std::vector<std::string> reasons;
  if (!model.siblings.empty()) reasons.push_back("has polynomials that are as likely");
  if (!model.rivals.empty())
    reasons.push_back("also fits " + checks_in_words(model.rivals) +
                      "; change several settings at once to tell");
  if (!model.wider.empty()) reasons.push_back("may be one half of a sum of 16 bits");
  if (!model.carried)
    reasons.push_back("was never carried past its highest value: choose larger values");
  return reasons.empty() ? "is claimed by more than one model" : join(reasons, "; it ");
}

std::string open_range_in_words(const Model& model) {
  std::vector<std::string> reasons;
  if (model.firsts.size() > 1)
    reasons.push_back("it may begin anywhere in " + to_prose(to_addresses(model.firsts)));
  if (model.lasts.size() > 1)
    reasons.push_back("it may end anywhere in " + to_prose(to_addresses(model.lasts)));
  if (!model.still.empty())
    reasons.push_back(counted(model.still.size(), "byte") +
                      " in it never changed and may not count");
  return join(reasons, ", ");
}

// Rule, place and range are decided each by itself, and the headline says which are not.
std::string decided_in_words(const Solution& solution) {
  const Model& model = solution.models.front();
  if (solution.place_decided() && solution.range_decided())
    return "rule, place and range. The first model below is the check.";
  std::string text = solution.place_decided() ? "the rule and the place" : "the rule";
  if (solution.range_decided()) text += " and the range";
  text += ".";
  if (!solution.place_decided())
    text += " Open is the place: the same holds seen from " +
            to_prose(stored_addresses(model.twins.front())) + ".";
  if (!solution.range_decided()) text += " Open is the range: " + open_range_in_words(model) + ".";
  return text;
}

std::string outcome(const Solution& solution) {
  if (solution.models.empty() && !solution.complete) return "Nothing was found so far.";
  if (solution.models.empty()) {
    const bool looked = std::ranges::any_of(solution.spaces, &Space::listed);
    return looked
               ? "No check of the kinds that were searched agrees with all dumps."
               : "Too few dumps to look: luck alone would name more models than anyone can read.";
  }
  if (solution.decided()) return "Decided: " + decided_in_words(solution);
  const Model& first = solution.models.front();
  if (first.is_settled() && solution.odd)
    return "Found, but not decided: take the dump that was left out once more.";
  if (first.found())
    return fmt::format("Found, but not down to one rule: {} {}.",
                       to_prose(stored_addresses(first.check)), open_rule_in_words(first));
  return "Not decided: each of these may fit by luck, or rests on what proves nothing.";
}

std::string odd_in_words(const OddDump& odd, const std::vector<std::string>& names) {
  const std::string name =
      odd.dump < names.size() ? printable(names[odd.dump]) : fmt::format("dump {}", odd.dump + 1);
  if (odd.alone.empty())
    return fmt::format(
        "{} does not fit: the check below holds in all other dumps. It is damaged, or not of this "
        "machine, and was left out.",
        name);
  return fmt::format(
      "{} was left out: what is below holds in all other dumps. It alone shows another {}; either "
      "it "
      "is damaged, or that is not under the check as it is told here.",
      name, to_prose(odd.alone));
}

std::string next_step(const Solution& solution) {
  std::string text;
  const std::size_t missing = least_missing(solution);
  if (!solution.decided() && missing > 0)
    text += fmt::format("Dump {} more. ", missing == 1 ? "once" : fmt::format("{} times", missing));
  if (solution.next.bytes.empty()) return text + "Next change: " + solution.next.why + ".";
  return text + fmt::format("Best next change: a setting stored in {}; {}.",
                            to_prose(solution.next.bytes), solution.next.why);
}

}  // namespace

std::string solution_text(const Solution& solution, const Ink& ink,
                          const std::vector<std::string>& names) {
  std::string text = arithmetic(solution);
  if (!solution.complete)
    text +=
        ink(Tone::doubtful, "Stopped early: this is what was found so far, not everything.") + "\n";
  if (!solution.restless.empty())
    text += hanging(fmt::format("Left out as evidence, because it changes by itself: {}.",
                                to_prose(solution.restless)),
                    0) +
            "\n";
  if (solution.crowded)
    text += hanging("Very many models fit these dumps: only the likely ones were kept.", 0) + "\n";
  if (solution.odd)
    text += ink(Tone::bad, "Mistake: ") + hanging(odd_in_words(*solution.odd, names), 9) + "\n";
  text += hanging(outcome(solution), 0) + "\n\n";
  for (std::size_t i = 0; i < solution.models.size() && i < most_models_told; ++i)
    text += model_text(solution.models[i], i + 1, ink);
  if (solution.models.size() > most_models_told)
    text += fmt::format("... and {} more, all in --json.\n\n",
                        solution.models.size() - most_models_told);
  return text + hanging(next_step(solution), 0) + "\n";
}

}  // namespace rtcmend
