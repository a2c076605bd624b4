#include "render/report.h"

#include <fmt/format.h>

#include "base/text.h"
#include "render/columns.h"
#include "render/findings.h"

namespace rtcmend {

namespace {

std::vector<std::string> owners(const Layout& layout, Address at) {
  std::vector<std::string> ids;
  for (const Field* field : layout.fields_at(at)) ids.push_back(field->id);
  for (const Check* check : layout.checks_at(at)) ids.push_back(check->id);
  return ids;
}

std::string byte_text(const std::optional<std::uint8_t>& byte) {
  return byte ? hex2(*byte) : "??";
}

std::string changes_text(const std::vector<Change>& changes) {
  if (changes.empty()) return "No byte changed.\n";
  std::string text = counted(changes.size(), "byte") + " changed:\n";
  for (const Change& change : changes)
    text += fmt::format("  {}  {} -> {}  {}\n", hex2(change.at), byte_text(change.before),
                        byte_text(change.after), hanging(join(change.fields, ", "), 16));
  return text;
}

}  // namespace

std::vector<Change> changes(const Image& before, const Image& after, const Layout& layout) {
  std::vector<Change> found;
  for (std::size_t i = 0; i < before.size(); ++i) {
    const auto at = static_cast<Address>(i);
    if (before.at(at) != after.at(at))
      found.push_back({at, before.at(at), after.at(at), owners(layout, at)});
  }
  return found;
}

std::string report_text(const Report& report, const Ink& ink) {
  std::string text = fmt::format(
      "Wrote {}: {} bytes, {}, layout {}; {}.\n", printable(report.output), report.size,
      name(report.form), printable(report.layout), verdict(report.sound, report.findings, ink));
  if (!report.composed) text += changes_text(report.changes);
  text += findings_text(report.findings, ink);
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
