#include "terminal/sheet.h"

#include <fmt/format.h>

#include "base/text.h"
#include "chip/cautions.h"
#include "forms/rows.h"
#include "layout/privacy.h"
#include "render/chip_codes.h"
#include "terminal/columns.h"
#include "terminal/diagnosis.h"
#include "terminal/heading.h"
#include "terminal/plan.h"
#include "terminal/show.h"

namespace rtcmend {

namespace {

const Ink plain;
constexpr const char* page_end = "\f\n";

/// Two for the pen on a line.
std::string pen_text() {
  constexpr std::size_t half = page_width / 2 - 1;
  std::string text;
  bool second = false;
  for (const std::string& what : pen_lines()) {
    text += fmt::format("{} {:_<{}}{}", what, "", half - what.size() - 1, second ? "\n\n" : "  ");
    second = !second;
  }
  return text;
}

std::string heading_text(const Sheet& sheet) {
  std::string text = "Bench sheet: " + printable(sheet_title(sheet)) + "\n\n" + pen_text();
  if (!sheet.note.empty()) text += hanging(sheet.note, 0) + "\n\n";
  return text + "Before anything is opened or soldered, read the cautions behind.\n\n";
}

std::string rows_text(const Card& card) {
  std::string text = "Bytes for typing\n\n";
  for (const std::string& warning : copying_warnings(card)) text += hanging(warning, 0) + "\n\n";
  for (const std::string& unknown : card.layout.when_writing)
    text += "  -  " + hanging(unknown, 5) + "\n";
  const std::string rows = write_rows(without_private(card.dump.image, card.layout));
  for (const std::string_view row : lines(rows))
    if (!row.empty()) text += "  " + std::string(row) + "\n\n";
  return text + hanging(about_rows(card), 0) + "\n\n";
}

std::string sources_text(const Sheet& sheet) {
  std::string text = "\nWhere each fact comes from\n";
  for (const std::string& source : sources_of(sheet)) text += "  -  " + hanging(source, 5) + "\n";
  return text;
}

}  // namespace

std::string sheet_text(const Sheet& sheet) {
  const auto detail = sheet.sources ? RegisterDetail::every_bit : RegisterDetail::a_line_each;
  std::string text = heading_text(sheet) + show_text(sheet.card, detail, plain) +
                     suspects_text(sheet.suspects, sheet.card.name, plain) +
                     forecast_text(sheet.forecast, plain);
  if (sheet.sources) text += sources_text(sheet);
  text += page_end + rows_text(sheet.card);
  return text +
         (sheet.plan ? plan_text(*sheet.plan, plain) : cautions_text(bench_cautions(), plain));
}

}  // namespace rtcmend
