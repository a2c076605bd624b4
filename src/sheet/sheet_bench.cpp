// The parts of the bench sheet for hands and eyes at the bench: rows to type, and cautions.
#include <fmt/format.h>

#include "base/text.h"
#include "chip/cautions.h"
#include "forms/rows.h"
#include "layout/privacy.h"
#include "sheet/sheet_parts.h"

namespace rtcmend {

namespace {

/// Whoever types the bytes into a machine is told what nobody knows about it.
Html unknowns(const Layout& layout) {
  if (layout.when_writing.empty()) return {};
  Html items;
  for (const std::string& line : layout.when_writing) items += element("li", line);
  return element("ul", {{"class", "unknowns"}}, items);
}

}  // namespace

Html rows_part(const Card& card) {
  const Image image = without_private(card.dump.image, card.layout);
  const std::string written = write_rows(image);
  Html rows;
  for (const std::string_view row : lines(written))
    if (!row.empty()) rows += element("span", {{"class", "row"}}, row) + own_markup("\n");
  std::string about =
      "Address, sixteen bytes, and a code over both. Type them as they stand: rtcmend reads them "
      "back and names the row that has a slip.";
  if (!image.all_known())
    about +=
        " ?? is a byte that the dump does not hold or that belongs to a password: leave it as "
        "it is in the chip.";
  return unknowns(card.layout) + element("p", about) +
         wide("Bytes in rows", element("pre", {{"class", "rows"}}, element("code", rows)));
}

Html cautions_part() {
  Html items;
  for (const Caution& caution : bench_cautions())
    items +=
        element("li", element("b", caution.topic + ".") + own_markup(" ") + words(caution.text));
  return element("ul", {{"class", "cautions"}}, items) +
         element("p", {{"class", "small"}}, cautions_limit());
}

}  // namespace rtcmend
