#include "terminal/report.h"

#include <fmt/format.h>

#include "base/text.h"
#include "terminal/columns.h"
#include "terminal/findings.h"
#include "terminal/shell_word.h"

namespace rtcmend {

namespace {

std::string byte_text(const Change& change, const std::optional<std::uint8_t>& byte) {
  if (change.hidden) return "**";
  return byte ? hex2(*byte) : "??";
}

std::string owners_text(const Change& change) {
  return change.fields.empty() ? "" : "  " + hanging(join(change.fields, ", "), 16);
}

std::string changes_text(const std::vector<Change>& changes) {
  if (changes.empty()) return "No byte changed.\n";
  std::string text = counted(changes.size(), "byte") + " changed:\n";
  for (const Change& change : changes)
    text += fmt::format("  {}  {} -> {}{}\n", hex2(change.at), byte_text(change, change.before),
                        byte_text(change, change.after), owners_text(change));
  return text;
}

/// What the changed bytes mean.
std::string fields_text(const std::vector<FieldChange>& fields) {
  std::string text = fields.empty() ? "" : "In words:\n";
  for (const FieldChange& field : fields)
    text +=
        "  " +
        hanging(printable(fmt::format("{}: {} becomes {}", field.label, field.before, field.after)),
                4) +
        "\n";
  return text;
}

bool may_go_into_a_chip(const Standing& standing) {
  return standing.dump == Standing::Dump::trusted &&
         standing.settings == Standing::Settings::proven;
}

std::string next_text(const Report& report) {
  if (report.output == "-") return {};
  if (report.insisted || !may_go_into_a_chip(report.standing))
    return "Beware: " +
           hanging(
               "this image is written because you insisted; do not put it into a "
               "chip that you want to keep.",
               8) +
           "\n";
  return "Next: " +
         hanging_with(
             "write it into the chip, read the chip back, and let \"{}\" say whether it took.",
             fmt::format("rtcmend compare {} READBACK", shell_word(report.output)), 6) +
         "\n";
}

std::string notes_text(const std::vector<std::string>& notes) {
  std::string text;
  for (const std::string& note : notes) text += "Note: " + hanging(note, 6) + "\n";
  return text;
}

}  // namespace

std::string report_text(const Report& report, const Ink& ink) {
  const std::string from = report.layout_file.empty()
                               ? std::string()
                               : fmt::format(" (from {}, not built in)", report.layout_file);
  std::string text = fmt::format("Wrote {}: {} bytes, {}, layout {}.\n", printable(report.output),
                                 report.size, name(report.form), printable(report.layout + from));
  text += verdict(report.standing, report.findings, ink) + "\n";
  if (!report.composed) text += changes_text(report.changes) + fields_text(report.fields);
  text += findings_text(report.findings, ink) + notes_text(report.notes);
  return text + next_text(report);
}

}  // namespace rtcmend
