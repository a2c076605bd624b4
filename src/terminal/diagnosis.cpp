#include "terminal/diagnosis.h"

#include <fmt/format.h>

#include "base/text.h"
#include "render/words.h"
#include "terminal/advice.h"
#include "terminal/columns.h"

namespace rtcmend {

namespace {

/// More than these would be read by nobody; --json has them all.
constexpr std::size_t most_suspects = 8;

std::string indented(const std::string& text, std::size_t column) {
  return std::string(column, ' ') + hanging(text, column) + "\n";
}

/// "  Heading  text", folded under the text, which stands on its own lines below a long heading.
std::string entry(std::string_view head, std::size_t column, const std::string& text) {
  if (head.size() + 3 > column) return fmt::format("  {}\n", head) + indented(text, column);
  return fmt::format("  {:<{}}{}\n", head, column - 2, hanging(text, column));
}

}  // namespace

std::string suspects_text(const std::vector<Suspect>& suspects, const std::string& dump,
                          const Ink& ink) {
  if (suspects.empty()) return {};
  constexpr std::size_t column = 11;
  const bool several = none_of_these(suspects).size() > 1;
  std::string text = ink(Tone::strong, "Suspects") + ": small repairs that would explain it\n";
  for (std::size_t i = 0; i < suspects.size() && i < most_suspects; ++i) {
    const Suspect& suspect = suspects[i];
    text += fmt::format("  {:<8} {}\n", odds_words(suspect.odds), ink(Tone::strong, suspect.id));
    text += indented(suspect.text, column);
  }
  if (suspects.size() > most_suspects)
    text += fmt::format("  and {} less likely ones; --json lists them all\n",
                        suspects.size() - most_suspects);
  for (const OpenShare& open : none_of_these(suspects))
    text += fmt::format("  {:<8} none of these{}\n", odds_words(open.odds),
                        several ? ", for " + join(open.mends, " and ") : "");
  if (suspects.front().odds < 0.5)
    text += indented(
        "None is likelier than not: compare with the source, or read the chip again, "
        "before one is accepted.",
        2);
  const std::string accept =
      fmt::format("rtcmend amend {} --accept {} -o OUT", dump, suspects.front().id);
  // To be copied whole, so on a line of its own before it would be folded.
  constexpr std::size_t widest = 80;
  if (column + accept.size() > widest) return text + "  Accept\n    " + accept + "\n";
  return text + fmt::format("  {:<{}}{}\n", "Accept", column - 2, accept);
}

namespace {

std::string open_text(const Forecast& forecast, const Ink& ink) {
  if (forecast.unsettled.empty()) return {};
  std::string text = ink(Tone::strong, "It cannot be promised") + ":\n";
  for (const Unpromised& unsettled : forecast.unsettled)
    text += indented(fmt::format("{} ({})", unsettled.text, join(unsettled.because, ", ")), 2);
  return text;
}

}  // namespace

std::string forecast_text(const Forecast& forecast, const Ink& ink) {
  constexpr std::size_t column = 11;
  if (forecast.misread)
    return "The dump was misread, so nothing can be foretold from it. Read the chip again.\n";
  if (forecast.codes.empty())
    return "Nothing in this image would raise a code at power-on.\n" + open_text(forecast, ink) +
           "A drive or adapter that fails raises its own, whatever the chip says.\n";
  std::string text;
  for (const Foretold& foretold : forecast.codes) {
    text += fmt::format("  {:<8} {}\n", ink(Tone::bad, fmt::format("{:<8}", foretold.code->code)),
                        hanging(foretold.code->means, column));
    for (const std::string& why : foretold.why) text += indented("Because: " + why, column);
    text += indented("Seen as: " + join(foretold.because, ", "), column);
    text += indented("Do: " + advice_text(foretold.code->remedy), column);
  }
  return text + open_text(forecast, ink) +
         "In the order of work. A drive or adapter that fails raises its own code as well.\n";
}

namespace {

constexpr std::size_t code_column = 8;

std::string unknown_text(const ExplainedCode& code) {
  return entry(printable(code.code), code_column,
               "is not a code that this program knows. It says nothing here about the clock chip: "
               "look it up in the machine's own manual.");
}

std::string cause_text(const ExplainedCause& cause, std::size_t number, const Ink& ink) {
  std::string text = fmt::format("{}. {}", number, cause.text);
  text = indented(text, code_column);
  if (!cause.seen.empty())
    text += std::string(code_column + 3, ' ') +
            ink(Tone::bad,
                hanging("The dump shows it: " + join(cause.seen, ", ") + ".", code_column + 3)) +
            "\n";
  return text;
}

std::string code_text(const ExplainedCode& code, const Ink& ink) {
  if (code.known == nullptr) return unknown_text(code);
  std::string text = fmt::format("  {} {}\n", ink(Tone::strong, fmt::format("{:<5}", code.code)),
                                 hanging(code.known->means, code_column));
  if (!code.known->chip)
    text += indented("Not the clock chip: look at " + code.known->look_at + ".", code_column);
  for (std::size_t i = 0; i < code.causes.size(); ++i)
    text += cause_text(code.causes[i], i + 1, ink);
  text += indented("Do: " + advice_text(code.known->remedy), code_column);
  return text + indented("Source: " + code.known->source + ".", code_column);
}

}  // namespace

std::string explain_text(const Explanation& explanation, const Ink& ink) {
  std::string text;
  for (const ExplainedCode& code : explanation.codes) text += code_text(code, ink);
  if (explanation.order.empty()) return text;
  text += ink(Tone::strong, "Order of work") + "\n";
  for (const std::string& step : explanation.order) text += "  " + hanging(step, 2) + "\n";
  return text;
}

}  // namespace rtcmend
