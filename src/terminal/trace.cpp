#include "terminal/trace.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "terminal/columns.h"
#include "terminal/solution.h"

namespace rtcmend {

namespace {

// "12h bits 7-4, 19h": neighbouring bits of one byte as one piece.
std::string bits_in_words(const std::vector<Bit>& bits) {
  std::vector<std::string> pieces;
  for (std::size_t i = 0; i < bits.size();) {
    std::size_t end = i + 1;
    while (end < bits.size() && bits[end].at == bits[i].at &&
           bits[end].bit + 1 == bits[end - 1].bit)
      ++end;
    const int high = bits[i].bit, low = bits[end - 1].bit;
    std::string piece = hex_prose(bits[i].at);
    if (high == low)
      piece += fmt::format(" bit {}", high);
    else if (high != 7 || low != 0)
      piece += fmt::format(" bits {}-{}", high, low);
    pieces.push_back(piece);
    i = end;
  }
  return join(pieces, ", ");
}

std::string encoding_in_words(const TracedField& field) {
  const Encoding& encoding = field.encoding;
  switch (encoding.kind) {
    case Encoding::Kind::number: {
      std::string text = "a number";
      if (encoding.scale != 1) text += fmt::format(", stored in steps of {}", encoding.scale);
      if (encoding.offset != 0) text += fmt::format(", counted from {}", encoding.offset);
      if (field.values.size() < 3) text += " (from two values only: a guess)";
      return text;
    }
    case Encoding::Kind::bcd:
      return "decimal digits, four bits each";
    case Encoding::Kind::flag:
      return "yes or no";
    case Encoding::Kind::choice:
      break;
  }
  return field.is_shared() ? "follows from these settings" : "codes";
}

std::string values_in_words(const TracedField& field) {
  std::vector<std::string> words;
  for (const TracedValue& value : field.values)
    words.push_back(
        fmt::format("{} is {}{}", value.value, value.raw, value.dumps == 1 ? " (seen once)" : ""));
  return join(words, ", ");
}

std::string field_text(const TracedField& field, const Ink& ink) {
  std::string text =
      ink(Tone::strong, printable(join(field.settings, " and "))) + "\n  " +
      hanging(bits_in_words(field.encoding.bits) + ": " + encoding_in_words(field), 2) + "\n  " +
      hanging(values_in_words(field), 2) + "\n";
  for (const auto& copy : field.encoding.copies)
    text += "  " + hanging("once more at " + bits_in_words(copy), 2) + "\n";
  if (field.is_count)
    text += "  " + hanging("it counts how many of them are not stored as 0", 2) + "\n";
  if (!field.open.empty()) text += "  " + hanging("not settled: " + field.open, 2) + "\n";
  if (field.encoding.digits_open)
    text += "  " + hanging("a number or decimal digits: only a value above 9 tells", 2) + "\n";
  if (!field.drags.empty())
    text += "  " + hanging("moves along: " + join(field.drags, ", "), 2) + "\n";
  if (!field.dragged_by.empty())
    text += "  " + hanging("moved along by: " + join(field.dragged_by, ", "), 2) + "\n";
  return text;
}

std::string paragraph(std::string_view head, const std::string& text) {
  return hanging(fmt::format("{} {}", head, text), 0) + "\n";
}

std::string open_range(const Model& model) {
  if (model.firsts.size() < 2 && model.lasts.size() < 2) return "";
  return fmt::format(" Its range may begin at {} and end at {}.",
                     to_prose(to_addresses(model.firsts)), to_prose(to_addresses(model.lasts)));
}

std::string checks_text(const Trace& trace) {
  std::string text;
  for (const Model& model : trace.checks)
    text += paragraph(model.is_settled() ? "Check:" : "Perhaps a check:",
                      check_in_words(model.check) + "." + open_range(model));
  return text;
}

}  // namespace

std::string trace_text(const Trace& trace, const Draft& draft, const Ink& ink) {
  std::string text;
  for (const TracedField& field : trace.fields) text += field_text(field, ink) + "\n";
  text += checks_text(trace);
  if (!trace.restless.empty())
    text += paragraph("Changes by itself:", to_prose(trace.restless) + ".");
  if (!trace.silent.empty())
    text += paragraph("Nothing followed:", join(trace.silent, ", ") +
                                               "; it may live outside this chip, or in a byte that "
                                               "changes by itself.");
  for (const Mistake& mistake : trace.mistakes)
    text += ink(Tone::bad, "Mistake: ") + hanging(mistake.text + ".", 9) + "\n";
  for (const Contradiction& contradiction : trace.contradictions)
    text += ink(Tone::bad, "Contradiction: ") + hanging(contradiction.text + ".", 15) + "\n";
  for (const std::string& note : trace.notes) text += paragraph("Note:", note);
  for (const std::string& note : draft.notes) text += paragraph("Merging:", note);
  for (const std::string& next : trace.next) text += paragraph("Next:", next + ".");
  if (!trace.complete) text += ink(Tone::doubtful, "Stopped early: a check may be missing.") + "\n";
  return text;
}

}  // namespace rtcmend
