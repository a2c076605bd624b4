#include "cli/typing_sheet.h"

#include "base/text.h"
#include "sheet/html.h"

namespace rtcmend {

namespace {

/// One face for every character, large enough to type from, and no line broken.
constexpr std::string_view head =
    "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">"
    "<title>Typing sheet</title>"
    "<style>pre { font: 11pt/1.45 monospace; } @page { margin: 15mm; }</style></head><body>";

}  // namespace

std::string file_of(const Delivery& delivery, const std::string& output) {
  if (delivery.sheet.empty()) return delivery.content;
  if (!output.ends_with(".html")) return delivery.sheet;
  Html text;
  for (const std::string_view line : lines(delivery.sheet)) text += words(line) + own_markup("\n");
  return std::string(head) + element("pre", text).text() + "</body></html>\n";
}

}  // namespace rtcmend
