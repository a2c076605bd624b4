#include "terminal/layouts.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "layout/codec.h"
#include "render/words.h"
#include "terminal/columns.h"

namespace rtcmend {

namespace {

constexpr std::size_t text_column = 14;

/// "10.7-4": byte 10, bits 7 to 4; whole bytes are named by their address alone.
std::string place(const Field& field) {
  std::vector<std::string> parts;
  Addresses whole;
  for (const BitSlice& slice : field.bits) {
    if (slice.mask() == 0xFF)
      whole.push_back(slice.at);
    else
      parts.push_back(slice.high == slice.low
                          ? fmt::format("{}.{}", hex2(slice.at), slice.high)
                          : fmt::format("{}.{}-{}", hex2(slice.at), slice.high, slice.low));
  }
  std::sort(whole.begin(), whole.end());
  if (!whole.empty()) parts.insert(parts.begin(), narrow(whole));
  return join(parts, " ");
}

std::string remarks(const Field& field) {
  std::vector<std::string> parts;
  if (field.escape)
    parts.push_back(fmt::format("{}-{} go to byte {}", field.escape->least, field.escape->most,
                                hex2(field.escape->at)));
  if (const std::string follows = describe_follows(field); !follows.empty())
    parts.push_back(follows);
  if (field.is_volatile) parts.push_back("changes by itself");
  if (field.read_only) parts.push_back("shown only");
  return join(parts, "; ");
}

std::string indented(std::string_view text) {
  return std::string(text_column, ' ') + hanging(text, text_column) + "\n";
}

std::string field_text(const Field& field, const Ink& ink) {
  std::string text = fmt::format("  {:<11} {}  {}\n", place(field),
                                 ink(Tone::strong, printable(field.id)), printable(field.label));
  text += indented(legal_values(field));
  if (const std::string more = remarks(field); !more.empty()) text += indented(more);
  if (!field.note.empty()) text += indented(field.note);
  return text;
}

std::string check_text(const Check& check) {
  std::vector<std::string> over;
  for (const Covered& covered : check.over)
    over.push_back(to_text(covered.range) + (covered.when ? " (under a condition)" : ""));
  return fmt::format(
      "  {:<11} {}\n", narrow(stored_addresses(check)),
      hanging(fmt::format("{}: {} over {}", check.id, describe(check), join(over, ", ")),
              text_column));
}

std::string list_text(std::string_view title, const std::vector<std::string>& entries,
                      const Ink& ink) {
  if (entries.empty()) return {};
  std::string text = ink(Tone::strong, title) + "\n";
  for (const std::string& entry : entries) text += "  " + hanging(entry, 2) + "\n";
  return text;
}

}  // namespace

namespace {

/// "  second sum      sum-34-3d, sum-40-7d ..." wrapped behind the family's name.
std::string family_text(const std::string& family, const std::string& of,
                        const std::vector<Trait>& traits, std::size_t widest) {
  std::vector<std::string> ids;
  for (const Trait& trait : traits)
    if (trait.family == family && std::ranges::count(trait.of, of) != 0) ids.push_back(trait.id);
  return fmt::format("  {:<{}}  {}\n", family, widest, hanging(join(ids, ", "), widest + 4));
}

}  // namespace

std::string library_text(const std::vector<LayoutClass>& classes, const std::vector<Trait>& traits,
                         const Ink& ink) {
  std::size_t widest = 0;
  for (const LayoutClass& one : classes)
    for (const std::string& family : one.families) widest = std::max(widest, family.size());
  std::string text;
  for (const LayoutClass& one : classes) {
    text +=
        fmt::format("{}  {}\n", ink(Tone::strong, fmt::format("{:<{}}", one.core.id, widest + 2)),
                    one.core.title);
    for (const std::string& family : one.families)
      text += family_text(family, one.core.id, traits, widest);
  }
  return text +
         hanging(
             "A layout is a class and any traits, at most one of each line: "
             "at+sum-40-7d+memory-34.",
             0) +
         "\n";
}

std::string own_layouts_text(const std::vector<Layout>& own, const Ink& ink) {
  if (own.empty()) return {};
  std::size_t widest = 0;
  for (const Layout& layout : own) widest = std::max(widest, printable(layout.id).size());
  std::string text = ink(Tone::strong, "Your own") + "\n";
  for (const Layout& layout : own)
    text += fmt::format("  {:<{}}{}\n", printable(layout.id), widest + 2,
                        hanging(printable(layout.title), widest + 4));
  return text;
}

std::string evidence_text(const LayoutEvidence& evidence) {
  std::size_t widest = 0;
  for (const auto& check : evidence.checks) widest = std::max(widest, printable(check.id).size());
  for (const auto& field : evidence.fields) widest = std::max(widest, printable(field.id).size());
  const auto line = [&](const std::string& id, const std::string& words) {
    return fmt::format("  {:<{}}{}\n", printable(id), widest + 2, hanging(words, widest + 4));
  };
  std::string text = fmt::format("Held against {} dumps, {} of them different\n", evidence.dumps,
                                 evidence.different);
  for (const auto& check : evidence.checks)
    text += line(check.id, check.failed > 0
                               ? fmt::format("holds in {}, and NOT in {}", check.held, check.failed)
                               : fmt::format("holds in {} of {}", check.held, evidence.dumps));
  for (const auto& field : evidence.fields) {
    std::string words = fmt::format("{} value{} seen", field.values, field.values == 1 ? "" : "s");
    if (field.odd > 0) words += fmt::format(", without a meaning in {} dumps", field.odd);
    if (field.values == 1) words += ": nobody saw it change";
    text += line(field.id, words);
  }
  if (!evidence.never_changed.empty())
    text += hanging("Never changed in these dumps: " + to_prose(evidence.never_changed) + ".", 2) +
            "\n";
  return text;
}

std::string caveats_text(const Layout& layout) {
  return list_text("Notes", layout.notes, Ink(false)) +
         list_text("When it is written with", layout.when_writing, Ink(false));
}

std::string layout_text(const Layout& layout, const Ink& ink) {
  std::string text =
      fmt::format("{}: {}\n", ink(Tone::strong, printable(layout.id)), printable(layout.title));
  text += ink(Tone::strong, "Fields") + " (10.7-4 is byte 10, bits 7 to 4)\n";
  for (const Field& field : layout.fields) text += field_text(field, ink);
  text += ink(Tone::strong, "Checks") + "\n";
  if (layout.checks.empty()) text += "  none\n";
  for (const Check& check : layout.checks) text += check_text(check);
  return text + list_text("Notes", layout.notes, ink) + list_text("Sources", layout.sources, ink);
}

}  // namespace rtcmend
