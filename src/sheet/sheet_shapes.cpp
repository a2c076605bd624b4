#include "sheet/sheet_shapes.h"

#include <fmt/format.h>

#include "base/text.h"

namespace rtcmend {

namespace {

std::string number(int value) {
  return fmt::format("{}", value);
}

Html box(const std::string& kind, int x, int y, int width, int height) {
  return lone("rect", {{"class", kind},
                       {"x", number(x)},
                       {"y", number(y)},
                       {"width", number(width)},
                       {"height", number(height)}});
}

Html path(const char* kind, const std::string& shape) {
  return lone("path", {{"class", kind}, {"d", shape}});
}

/// A byte of several groups is tinted in stripes, one for each.
Html ground(const PlannedByte& byte, int x, int y) {
  if (byte.owner != Owner::group)
    return box(tint_class(byte.owner, 0), x, y, cell_width, cell_height);
  Html all;
  const int stripes = static_cast<int>(byte.groups.size());
  for (int i = 0; i < stripes; ++i) {
    const int from = i * cell_width / stripes, to = (i + 1) * cell_width / stripes;
    all += box(tint_class(Owner::group, byte.groups[static_cast<std::size_t>(i)]), x + from, y,
               to - from, cell_height);
  }
  return all;
}

std::string value_text(const PlannedByte& byte, const Image& image) {
  if (!image.known(byte.at)) return "??";
  return byte.concealed ? "**" : hex2(image[byte.at]);
}

/// What shows while the pointer rests on a cell.
std::string tip(const PlannedByte& byte, const Card& card) {
  std::vector<std::string> owners;
  for (const Field* field : byte.fields) owners.push_back(field->label);
  for (const std::size_t check : byte.stores)
    owners.push_back("stored check " + card.layout.checks[check].id);
  if (owners.empty())
    owners.push_back(byte.owner == Owner::nobody ? "no meaning known" : chip_word(byte.at));
  std::string text = fmt::format("{}: {}", hex_prose(byte.at), join(owners, "; "));
  if (byte.damage == Damage::fault) text += "; a fault names it";
  if (byte.damage == Damage::doubt) text += "; in doubt";
  if (byte.suspected) text += "; suspected";
  return text;
}

}  // namespace

std::string tint_class(Owner owner, std::size_t group) {
  constexpr std::size_t pigments = 8;  // record_card.css
  switch (owner) {
    case Owner::clock:
      return "tint-clock";
    case Owner::registers:
      return "tint-register";
    case Owner::group:
      return fmt::format("tint-{}", group % pigments + 1);
    case Owner::check:
      return "tint-check";
    case Owner::nobody:
      break;
  }
  return "tint-nobody";
}

std::string owner_label(const PlannedByte& byte) {
  if (byte.owner == Owner::check) return "check";
  std::vector<std::string> letters;
  for (const std::size_t group : byte.groups) letters.push_back(group_letter(group));
  return join(letters, " ");
}

Html cell(const PlannedByte& byte, const Card& card, const std::string& label, int x, int y) {
  const bool known = card.dump.image.known(byte.at);
  Html all = element("title", tip(byte, card)) + ground(byte, x, y);
  if (!known) all += dashed_mark(x, y);
  if (byte.damage == Damage::fault) all += strike_mark(x, y);
  if (byte.damage == Damage::doubt) all += wave_mark(x, y);
  if (!label.empty())
    all +=
        element("text", {{"class", "label"}, {"x", number(x + 5)}, {"y", number(y + 14)}}, label);
  all += element("text",
                 {{"class", known ? "value" : "value unknown"},
                  {"x", number(x + cell_width / 2)},
                  {"y", number(y + 38)}},
                 value_text(byte, card.dump.image));
  if (byte.suspected) all += ring_mark(x, y);
  return element("g", all);
}

Html coverage_line(std::size_t check, int from, int to, int y) {
  return lone("line", {{"class", fmt::format("lane lane-{}", check % 4)},
                       {"x1", number(from)},
                       {"y1", number(y)},
                       {"x2", number(to)},
                       {"y2", number(y)}});
}

Html seal_mark(const CheckResult& result, int x, int y) {
  constexpr int half = 6;
  if (result.ok()) return box("seal holds", x - half, y - half, 2 * half, 2 * half);
  Html all = box("seal open", x - half, y - half, 2 * half, 2 * half);
  if (result.stored && result.computed)
    all += path("cross", fmt::format("M{0} {2}L{1} {3}M{1} {2}L{0} {3}", x - half, x + half,
                                     y - half, y + half));
  return all;
}

Html strike_mark(int x, int y) {
  return path("strike",
              fmt::format("M{} {}L{} {}", x + 3, y + cell_height - 3, x + cell_width - 3, y + 3));
}

Html wave_mark(int x, int y) {
  const int from = x + 12, line = y + cell_height - 6;
  return path("wave", fmt::format("M{} {}q3 -5 6 0t6 0t6 0t6 0t6 0t6 0", from, line));
}

Html ring_mark(int x, int y) {
  return lone("ellipse", {{"class", "ring"},
                          {"cx", number(x + cell_width / 2)},
                          {"cy", number(y + 30)},
                          {"rx", "24"},
                          {"ry", "16"}});
}

Html dashed_mark(int x, int y) {
  return box("dashed", x + 4, y + 4, cell_width - 8, cell_height - 8);
}

}  // namespace rtcmend
