// The part of the bench sheet that a phone reads: what the chip holds as QR codes.
#include <fmt/format.h>

#include "render/chip_codes.h"
#include "sheet/sheet_parts.h"

namespace rtcmend {

namespace {

/// The dark modules as one path, a stroke for each run of them in a row; a unit is a module.
std::string runs(const QrCode& code) {
  std::string path;
  for (int row = 0; row < QrCode::side; ++row)
    for (int column = 0, length = 0; column < QrCode::side; column += length + 1) {
      for (length = 0; code.dark(row, column + length); ++length) {
      }
      if (length > 0)
        path += fmt::format("M{} {}h{}v1h-{}z", column + QrCode::quiet, row + QrCode::quiet, length,
                            length);
    }
  return path;
}

Html drawing(const ChipCode& code) {
  constexpr int side = QrCode::side + 2 * QrCode::quiet;
  const Html paper =
      lone("path", {{"fill", "#fff"}, {"d", fmt::format("M0 0h{0}v{0}h-{0}z", side)}});
  const Html ink = lone("path", {{"fill", "#000"}, {"d", runs(code.code)}});
  return element("figure", element("svg",
                                   {{"viewBox", fmt::format("0 0 {0} {0}", side)},
                                    {"role", "img"},
                                    {"aria-label", "QR code: " + code.caption},
                                    {"shape-rendering", "crispEdges"}},
                                   paper + ink) +
                               element("figcaption", code.caption));
}

}  // namespace

Html phone_part(const Card& card) {
  Html codes;
  for (const ChipCode& code : chip_codes(card)) codes += drawing(code);
  return element("div", {{"class", "phone"}}, codes) + element("p", about_codes(card));
}

}  // namespace rtcmend
