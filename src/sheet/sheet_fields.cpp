// The fields of the bench sheet, a table a group.
#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "sheet/sheet_parts.h"
#include "sheet/sheet_shapes.h"

namespace rtcmend {

namespace {

/// Where a field stands: whole bytes as ranges, bits behind their byte.
std::vector<std::string> place_of(const Field& field) {
  Addresses whole;
  std::vector<std::string> parts;
  for (const BitSlice& slice : field.bits) {
    if (slice.width() == 8)
      whole.push_back(slice.at);
    else if (slice.high == slice.low)
      parts.push_back(fmt::format("{} bit {}", hex2(slice.at), slice.low));
    else
      parts.push_back(fmt::format("{} bits {}-{}", hex2(slice.at), slice.high, slice.low));
  }
  std::sort(whole.begin(), whole.end());
  if (!whole.empty()) parts.insert(parts.begin(), to_text(whole));
  if (field.escape) parts.push_back(hex2(field.escape->at));
  return parts;
}

/// Each part of it keeps together on its line.
Html place_cell(const Field& field) {
  const std::vector<std::string> parts = place_of(field);
  std::vector<Html> pieces;
  for (std::size_t i = 0; i < parts.size(); ++i)
    pieces.push_back(
        element("span", {{"class", "whole"}}, parts[i] + (i + 1 < parts.size() ? "," : "")));
  return element("td", {{"class", "bytes place"}}, joined(pieces, own_markup(" ")));
}

Html value_of(const FieldReading& reading) {
  if (!reading.in_use) return element("span", {{"class", "remark"}}, "not in use");
  if (!reading.known) return element("span", {{"class", "remark"}}, "unknown");
  if (reading.legal) return words(reading.text);
  return element("strong", {{"class", "wrong"}}, "No meaning: ") + words(reading.text) +
         element("span", {{"class", "remark"}}, " (" + reading.problem + ")");
}

Html field_row(const FieldReading& reading, const Sources& sources) {
  const Field& field = *reading.field;
  Html name = words(field.label) + own_markup(" ") + element("code", field.id);
  if (!field.note.empty()) name += element("span", {{"class", "remark block"}}, field.note);
  Html row = place_cell(field);
  row += element("th", {{"scope", "row"}}, name);
  row += element("td", {{"class", "entry"}}, value_of(reading));
  row += element("td", {{"class", "mark"}}, source_mark(sources, field.source));
  return element("tr", row);
}

Html group_table(const Card& card, const MemoryPlan& plan, std::size_t group,
                 const Sources& sources) {
  Html head;
  for (const char* title : {"Bytes", "Field", "Says", "Source"})
    head += element("th", {{"scope", "col"}}, title);
  Html rows;
  for (const FieldReading& reading : card.examination.fields)
    if (reading.field->group == plan.groups[group]) rows += field_row(reading, sources);
  const Html caption =
      element("span", {{"class", "group-letter " + tint_class(Owner::group, group)}},
              group_letter(group)) +
      own_markup(" ") + words(group_title(plan.groups[group]));
  return element(
      "table", {{"class", "fields"}},
      element("caption", caption) + element("thead", element("tr", head)) + element("tbody", rows));
}

}  // namespace

Html fields_part(const Card& card, const MemoryPlan& plan, const Sources& sources) {
  if (plan.groups.empty())
    return element("p",
                   "This layout names no fields: it knows the chip and nothing about the RAM.");
  Html tables;
  for (std::size_t group = 0; group < plan.groups.size(); ++group)
    tables += group_table(card, plan, group, sources);
  return element("div", {{"class", "two-columns"}}, tables);
}

}  // namespace rtcmend
