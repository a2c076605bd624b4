#include "render/solution.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

#include "base/text.h"
#include "render/columns.h"

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

std::string ranges_in_words(const Check& check) {
  std::vector<std::string> parts;
  for (const Covered& covered : check.over) parts.push_back(to_prose(to_addresses(covered.range)));
  return join(parts, ", ");
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

Json or_null(bool present, Json value) {
  return present ? std::move(value) : Json(nullptr);
}

std::string order_word(Order order) {
  return order == Order::low_first ? "low-first" : "high-first";
}

void add_parameters(const Rule& rule, Json& json) {
  const auto* sum = std::get_if<SumRule>(&rule);
  const auto* crc = std::get_if<CrcRule>(&rule);
  const auto* all = std::get_if<XorRule>(&rule);
  const auto* balance = std::get_if<BalanceRule>(&rule);
  json["kind"] = kind(rule);
  json["width"] = width(rule);
  json["poly"] = or_null(crc != nullptr, crc != nullptr ? Json(crc->model.poly) : Json());
  json["init"] = crc != nullptr   ? Json(crc->model.init)
                 : sum != nullptr ? Json(sum->start)
                 : all != nullptr ? Json(all->start)
                                  : Json(nullptr);
  json["refin"] = crc != nullptr ? Json(crc->model.refin) : Json(nullptr);
  json["refout"] = crc != nullptr ? Json(crc->model.refout) : Json(nullptr);
  json["xorout"] = crc != nullptr ? Json(crc->model.xorout) : Json(nullptr);
  if (sum != nullptr) {
    json["sign"] = sum->sign == Sign::plain     ? "plain"
                   : sum->sign == Sign::negated ? "negated"
                                                : "complemented";
    json["pairs"] = sum->pairs ? Json(order_word(*sum->pairs)) : Json(nullptr);
  }
  if (balance != nullptr) json["target"] = balance->target;
}

void add_place(const Check& check, Json& json) {
  json["over"] = {check.over.front().range.first, check.over.back().range.last};
  json["at"] = check.stored_at;
  json["order"] = width(check) == 16 ? Json(order_word(check.order)) : Json(nullptr);
}

Json checks_as_json(const std::vector<Check>& checks) {
  Json list = Json::array();
  for (const Check& check : checks) {
    Json json = Json::object();
    add_parameters(check.rule, json);
    add_place(check, json);
    list.push_back(json);
  }
  return list;
}

Json family_json(const Model& model) {
  Json wordings = Json::array();
  for (const Rule& rule : model.wordings) {
    Json json = Json::object();
    add_parameters(rule, json);
    wordings.push_back(json);
  }
  return {{"models", model.family.size()},
          {"first", {model.firsts.first, model.firsts.last}},
          {"last", {model.lasts.first, model.lasts.last}},
          {"wordings", wordings}};
}

Json space_json(const Space& space) {
  return {{"width", space.width},           {"models", space.models},
          {"by_luck", space.by_luck},       {"dumps_that_decide", space.decide},
          {"more_dumps", space.more_dumps}, {"listed", space.listed}};
}

}  // namespace

std::string check_in_words(const Check& check) {
  std::string text = fmt::format("{} over {}, stored at {}", describe(check),
                                 ranges_in_words(check), to_prose(stored_addresses(check)));
  if (width(check) == 16)
    text += check.order == Order::low_first ? ", low byte first" : ", high byte first";
  return text;
}

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

Json model_json(const Model& model) {
  Json json = Json::object();
  add_parameters(model.check.rule, json);
  add_place(model.check, json);
  json["chance"] = model.chance;
  json["found"] = model.found();
  json["copy"] = model.copy;
  json["family"] = family_json(model);
  json["twins"] = checks_as_json(model.twins);
  json["siblings"] = checks_as_json(model.siblings);
  json["habits"] = Json::array();
  for (const Habit& habit : model.habits)
    json["habits"].push_back({{"bits", habit.bits}, {"text", habit.text}});
  return json;
}

Json solution_json(const Solution& solution) {
  Json json = Json::object();
  json["models"] = Json::array();
  for (const Model& model : solution.models) json["models"].push_back(model_json(model));
  json["decided"] = solution.decided();
  json["complete"] = solution.complete;
  json["dumps"] = solution.dumps;
  json["repeats"] = solution.repeats;
  json["spaces"] = Json::array();
  for (const Space& space : solution.spaces) json["spaces"].push_back(space_json(space));
  json["next"] = {{"at", solution.next.bytes}, {"why", solution.next.why}};
  return json;
}

}  // namespace rtcmend
