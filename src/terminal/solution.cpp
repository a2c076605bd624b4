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

std::string enough_or_not(const Space& space) {
  if (space.more_dumps == 0) return "enough";
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
  if (model.copy) return "a second copy of a setting rather than a check";
  if (model.half_proven) return "only one of its two bytes ever changed";
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

std::string outcome(const Solution& solution) {
  if (solution.models.empty() && !solution.complete) return "Nothing was found so far.";
  if (solution.models.empty()) {
    const bool looked = std::ranges::any_of(solution.spaces, &Space::listed);
    return looked
               ? "No check of the kinds that were searched agrees with all dumps."
               : "Too few dumps to look: luck alone would name more models than anyone can read.";
  }
  if (solution.decided()) return "Decided: the first model below is the check.";
  if (solution.models.front().found())
    return "Found, but not down to one model: see what else fits the same bytes.";
  return "Not decided: each of these may fit by luck.";
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

std::string solution_text(const Solution& solution, const Ink& ink) {
  std::string text = arithmetic(solution);
  if (!solution.complete)
    text +=
        ink(Tone::doubtful, "Stopped early: this is what was found so far, not everything.") + "\n";
  text += hanging(outcome(solution), 0) + "\n\n";
  for (std::size_t i = 0; i < solution.models.size() && i < most_models_told; ++i)
    text += model_text(solution.models[i], i + 1, ink);
  if (solution.models.size() > most_models_told)
    text += fmt::format("... and {} more, all in --json.\n\n",
                        solution.models.size() - most_models_told);
  return text + hanging(next_step(solution), 0) + "\n";
}

}  // namespace rtcmend
