// The drawing of the memory: sixteen cells a row, neighbours of one owner in one outline, under
// them a line for each check. All lengths are in the drawing's own units; the page scales it.
#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "sheet/sheet_parts.h"
#include "sheet/sheet_shapes.h"

namespace rtcmend {

namespace {

constexpr int columns = 16;
constexpr int margin = 48;  // for the addresses of the rows
constexpr int head = 24;    // for the last digits above the columns
constexpr int lane = 17;    // a check's line under its bytes
constexpr int row_gap = 10;
constexpr int whole_width = margin + columns * cell_width + 4;

/// Where a row of cells stands.
struct RowPlace {
  std::size_t first;  ///< index of its first byte
  int top;
  int lanes;
};

bool contains(const std::vector<std::size_t>& all, std::size_t one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

/// Whether a check's line passes under a byte.
bool drawn_under(const PlannedByte& byte, std::size_t check) {
  return contains(byte.covered_by, check) || contains(byte.stores, check);
}

/// The lane of each check: one that no earlier check needs on a byte of its own.
std::vector<int> lanes(const MemoryPlan& plan, std::size_t checks) {
  std::vector<int> lane_of(checks, 0);
  for (std::size_t check = 0; check < checks; ++check) {
    const auto taken = [&](int wanted) {
      return std::any_of(plan.bytes.begin(), plan.bytes.end(), [&](const PlannedByte& byte) {
        if (!drawn_under(byte, check)) return false;
        for (std::size_t other = 0; other < check; ++other)
          if (lane_of[other] == wanted && drawn_under(byte, other)) return true;
        return false;
      });
    };
    while (taken(lane_of[check])) ++lane_of[check];
  }
  return lane_of;
}

int x_of(std::size_t index) {
  return margin + static_cast<int>(index % columns) * cell_width;
}

std::vector<RowPlace> rows(const MemoryPlan& plan, const std::vector<int>& lane_of) {
  std::vector<RowPlace> places;
  int top = head;
  for (std::size_t first = 0; first < plan.bytes.size(); first += columns) {
    int used = 0;
    for (std::size_t i = first; i < first + columns; ++i)
      for (std::size_t check = 0; check < lane_of.size(); ++check)
        if (drawn_under(plan.bytes[i], check)) used = std::max(used, lane_of[check] + 1);
    places.push_back({first, top, used});
    top += cell_height + used * lane + row_gap;
  }
  return places;
}

Html column_heads() {
  Html all;
  for (std::size_t i = 0; i < columns; ++i)
    all += element("text",
                   {{"class", "axis"},
                    {"x", fmt::format("{}", x_of(i) + cell_width / 2)},
                    {"y", fmt::format("{}", head - 8)}},
                   fmt::format("x{:X}", i));
  return all;
}

/// A stretch of one row under which one check's line runs.
struct Stretch {
  std::size_t from, to;  ///< indices of bytes, both included
};

std::vector<Stretch> stretches(const MemoryPlan& plan, const RowPlace& row, std::size_t check) {
  std::vector<Stretch> found;
  for (std::size_t i = row.first; i < row.first + columns; ++i) {
    if (!drawn_under(plan.bytes[i], check)) continue;
    if (!found.empty() && found.back().to + 1 == i)
      found.back().to = i;
    else
      found.push_back({i, i});
  }
  return found;
}

Html check_line(const MemoryPlan& plan, const CheckResult& result, std::size_t check,
                const Stretch& stretch, int y) {
  // The line ends in the middle of a byte that stores the check, at the far side of any other.
  const bool ends_in_square = contains(plan.bytes[stretch.to].stores, check);
  const int to = x_of(stretch.to) + (ends_in_square ? cell_width / 2 : cell_width - 5);
  const int from = x_of(stretch.from) + 5;
  const std::string number = fmt::format("{}", check + 1);
  const int line_from = from + 9 * static_cast<int>(number.size()) + 5;
  Html all = element(
      "text",
      {{"class", "lane-number"}, {"x", fmt::format("{}", from)}, {"y", fmt::format("{}", y + 5)}},
      number);
  all += coverage_line(check, line_from, to, y);
  for (std::size_t i = stretch.from; i <= stretch.to; ++i)
    if (contains(plan.bytes[i].stores, check))
      all += seal_mark(result, x_of(i) + cell_width / 2, y);
  return all;
}

Html check_lines(const MemoryPlan& plan, const Card& card, const std::vector<int>& lane_of,
                 const RowPlace& row) {
  Html all;
  for (std::size_t check = 0; check < lane_of.size(); ++check)
    for (const Stretch& stretch : stretches(plan, row, check))
      all += check_line(plan, card.examination.checks[check], check, stretch,
                        row.top + cell_height + lane_of[check] * lane + lane / 2 + 2);
  return all;
}

/// The lines around a cell: heavy where the owner changes, thin inside.
Html outline(const MemoryPlan& plan, std::size_t index, int top) {
  const auto edge = [&](const char* kind, int x1, int y1, int x2, int y2) {
    return lone("line", {{"class", kind},
                         {"x1", fmt::format("{}", x1)},
                         {"y1", fmt::format("{}", y1)},
                         {"x2", fmt::format("{}", x2)},
                         {"y2", fmt::format("{}", y2)}});
  };
  const int x = x_of(index), bottom = top + cell_height;
  const bool starts = index % columns == 0 || !same_owner(plan.bytes[index - 1], plan.bytes[index]);
  Html all = edge("edge", x, top, x + cell_width, top);
  all += edge("edge", x, bottom, x + cell_width, bottom);
  all += edge(starts ? "edge" : "thin", x, top, x, bottom);
  if (index % columns == columns - 1)
    all += edge("edge", x + cell_width, top, x + cell_width, bottom);
  return all;
}

/// The label of an outline stands in its first cell; the chip's own bytes each have a word.
std::string label_of(const MemoryPlan& plan, std::size_t index) {
  const PlannedByte& byte = plan.bytes[index];
  if (byte.owner == Owner::clock || byte.owner == Owner::registers) return chip_word(byte.at);
  if (index % columns != 0 && same_owner(plan.bytes[index - 1], byte)) return "";
  return owner_label(byte);
}

Html row_drawing(const MemoryPlan& plan, const Card& card, const std::vector<int>& lane_of,
                 const RowPlace& row) {
  Html all = element("text",
                     {{"class", "axis row"},
                      {"x", fmt::format("{}", margin - 10)},
                      {"y", fmt::format("{}", row.top + 38)}},
                     hex2(static_cast<Address>(row.first)));
  for (std::size_t i = row.first; i < row.first + columns; ++i)
    all += cell(plan.bytes[i], card, label_of(plan, i), x_of(i), row.top);
  for (std::size_t i = row.first; i < row.first + columns; ++i) all += outline(plan, i, row.top);
  return all + check_lines(plan, card, lane_of, row);
}

Addresses suspected(const MemoryPlan& plan) {
  Addresses found;
  for (const PlannedByte& byte : plan.bytes)
    if (byte.suspected) found.push_back(byte.at);
  return found;
}

Addresses damaged(const MemoryPlan& plan, Damage damage) {
  Addresses found;
  for (const PlannedByte& byte : plan.bytes)
    if (byte.damage == damage) found.push_back(byte.at);
  return found;
}

/// The drawing in words, for those who do not see it; the key below it says who owns what.
std::string description(const MemoryPlan& plan, const Card& card) {
  const auto part = [](const std::string& word, const Addresses& at) {
    return at.empty() ? "" : fmt::format(" {}: {}.", word, to_prose(at));
  };
  std::string text =
      fmt::format("{} bytes, sixteen a row, each with its value and its owner.", plan.bytes.size());
  text += part("Damaged", damaged(plan, Damage::fault));
  text += part("Doubtful", damaged(plan, Damage::doubt));
  text += part("Suspected", suspected(plan));
  text += part("Unknown", card.dump.image.unknown());
  return text + " The key, the fields and the checks below say the same in words.";
}

}  // namespace

Html memory_drawing(const MemoryPlan& plan, const Card& card) {
  const std::vector<int> lane_of = lanes(plan, card.examination.checks.size());
  const std::vector<RowPlace> places = rows(plan, lane_of);
  const RowPlace& last = places.back();
  const int height = last.top + cell_height + last.lanes * lane + 4;
  Html content = element("title", {{"id", "drawing-title"}}, "Plan of the memory") +
                 element("desc", {{"id", "drawing-words"}}, description(plan, card));
  content += column_heads();
  for (const RowPlace& row : places) content += row_drawing(plan, card, lane_of, row);
  return element("svg",
                 {{"class", "drawing"},
                  {"xmlns", "http://www.w3.org/2000/svg"},
                  {"viewBox", fmt::format("0 0 {} {}", whole_width, height)},
                  {"role", "img"},
                  {"aria-labelledby", "drawing-title"},
                  {"aria-describedby", "drawing-words"}},
                 content);
}

}  // namespace rtcmend
