#include "terminal/report.h"

#include <fmt/format.h>

#include "base/text.h"
#include "terminal/columns.h"
#include "terminal/findings.h"

namespace rtcmend {

namespace {

/// Bits of a byte that hold a field: all of them for its escape byte.
std::uint8_t bits_of(const Field& field, Address at) {
  if (field.escape && field.escape->at == at) return 0xFF;
  unsigned mask = 0;
  for (const BitSlice& slice : field.bits)
    if (slice.at == at) mask |= slice.mask();
  return static_cast<std::uint8_t>(mask);
}

/// The fields and checks that a change of these bits concerns.
std::vector<std::string> owners(const Layout& layout, Address at, std::uint8_t changed) {
  std::vector<std::string> ids;
  for (const Field* field : layout.fields_at(at))
    if ((bits_of(*field, at) & changed) != 0) ids.push_back(field->id);
  for (const Check* check : layout.checks_at(at)) ids.push_back(check->id);
  return ids;
}

std::string byte_text(const std::optional<std::uint8_t>& byte) {
  return byte ? hex2(*byte) : "??";
}

std::string owners_text(const Change& change) {
  return change.fields.empty() ? "" : "  " + hanging(join(change.fields, ", "), 16);
}

std::string changes_text(const std::vector<Change>& changes) {
  if (changes.empty()) return "No byte changed.\n";
  std::string text = counted(changes.size(), "byte") + " changed:\n";
  for (const Change& change : changes)
    text += fmt::format("  {}  {} -> {}{}\n", hex2(change.at), byte_text(change.before),
                        byte_text(change.after), owners_text(change));
  return text;
}

std::string report_verdict(const Report& report, const Ink& ink) {
  const std::string words = verdict(report.sound, report.findings, ink);
  return report.fit && !report.sound ? words + ", which no write can change" : words;
}

std::string notes_text(const std::vector<std::string>& notes) {
  std::string text;
  for (const std::string& note : notes) text += "Note: " + hanging(note, 6) + "\n";
  return text;
}

}  // namespace

std::vector<Change> changes(const Image& before, const Image& after, const Layout& layout) {
  std::vector<Change> found;
  for (std::size_t i = 0; i < before.size(); ++i) {
    const auto at = static_cast<Address>(i);
    if (before.at(at) == after.at(at)) continue;
    const bool both = before.known(at) && after.known(at);
    const auto bits = static_cast<std::uint8_t>(both ? before[at] ^ after[at] : 0xFF);
    found.push_back({at, before.at(at), after.at(at), owners(layout, at, bits)});
  }
  return found;
}

std::string report_text(const Report& report, const Ink& ink) {
  std::string text =
      fmt::format("Wrote {}: {} bytes, {}, layout {}; {}.\n", printable(report.output), report.size,
                  name(report.form), printable(report.layout), report_verdict(report, ink));
  if (!report.composed) text += changes_text(report.changes);
  text += findings_text(report.findings, ink) + notes_text(report.notes);
  if (report.output == "-") return text;
  return text + "Next: " +
         hanging(
             fmt::format("write it into the chip, read the chip back, and let \"rtcmend compare {} "
                         "READBACK\" say whether it took.",
                         report.output),
             6) +
         "\n";
}

}  // namespace rtcmend
