// The parts of the bench sheet for hands and eyes at the bench: rows to type, and cautions.
#include <fmt/format.h>

#include "base/text.h"
#include "chip/cautions.h"
#include "forms/rows.h"
#include "layout/privacy.h"
#include "render/chip_codes.h"
#include "sheet/sheet_parts.h"

namespace rtcmend {

namespace {

/// What whoever copies the bytes is told first: that they are not sound, what is left out, and what
/// nobody knows about a machine of this layout.
Html warnings_part(const Card& card) {
  Html all;
  for (const std::string& warning : copying_warnings(card))
    all += element("p", element("b", warning));
  if (card.layout.when_writing.empty()) return all;
  Html items;
  for (const std::string& line : card.layout.when_writing) items += element("li", line);
  return all + element("ul", {{"class", "unknowns"}}, items);
}

Html rows_part(const Card& card) {
  const Image image = without_private(card.dump.image, card.layout);
  const std::string written = write_rows(image);
  Html rows;
  for (const std::string_view row : lines(written))
    if (!row.empty()) rows += element("span", {{"class", "row"}}, row) + own_markup("\n");
  return wide("Bytes in rows", element("pre", {{"class", "rows"}}, element("code", rows))) +
         element("p", about_rows(card));
}

}  // namespace

Html copying_part(const Card& card) {
  return warnings_part(card) +
         element("div", {{"class", "beside"}},
                 element("div", rows_part(card)) + element("div", phone_part(card)));
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
