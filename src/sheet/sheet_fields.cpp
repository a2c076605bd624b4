// The fields of the bench sheet, a table a group.
#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "render/field_groups.h"
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

/// With their names and notes where the sheet tells what it rests on.
Html field_name(const Field& field, const Sources& sources) {
  if (sources.empty()) return words(field.label);
  Html name = words(field.label) + own_markup(" ") + element("code", field.id);
  if (!field.note.empty()) name += element("span", {{"class", "remark block"}}, field.note);
  return name;
}

Html field_row(const FieldReading& reading, const Sources& sources) {
  Html row = place_cell(*reading.field);
  row += element("th", {{"scope", "row"}}, field_name(*reading.field, sources));
  row += element("td", {{"class", "entry"}}, value_of(reading));
  if (!sources.empty())
    row += element("td", {{"class", "mark"}}, source_mark(sources, reading.field->source));
  return element("tr", row);
}

/// Flags that all say no, in one row.
Html all_no_row(const FieldGroup& group) {
  if (group.all_no.empty()) return {};
  Addresses at;
  std::vector<std::string> labels;
  for (const FieldReading& reading : group.all_no) {
    const Addresses own = addresses(*reading.field);
    at.insert(at.end(), own.begin(), own.end());
    labels.push_back(reading.field->label);
  }
  std::sort(at.begin(), at.end());
  at.erase(std::unique(at.begin(), at.end()), at.end());
  return element("tr", element("td", {{"class", "bytes place"}}, to_text(at)) +
                           element("th", {{"scope", "row"}}, join(labels, ", ")) +
                           element("td", {{"class", "entry"}}, "all no"));
}

/// The letter under which the drawing has a group.
Html letter(const std::string& group, const MemoryPlan& plan) {
  const auto found = std::find(plan.groups.begin(), plan.groups.end(), group);
  const auto index = static_cast<std::size_t>(found - plan.groups.begin());
  return element("span", {{"class", "group-letter " + tint_class(Owner::group, index)}},
                 group_letter(index));
}

Html group_table(const FieldGroup& group, const MemoryPlan& plan, const Sources& sources) {
  std::vector<const char*> titles{"Bytes", "Field", "Says"};
  if (!sources.empty()) titles.push_back("Source");
  Html head;
  for (const char* title : titles) head += element("th", {{"scope", "col"}}, title);
  Html rows;
  for (const FieldReading& reading : group.shown) rows += field_row(reading, sources);
  const Html caption = letter(group.name, plan) + own_markup(" ") + words(group_title(group.name));
  return element("table", {{"class", "fields"}},
                 element("caption", caption) + element("thead", element("tr", head)) +
                     element("tbody", rows + all_no_row(group)));
}

/// One by one where each has a source of its own to tell.
std::vector<FieldGroup> groups_for(const Card& card, const Sources& sources) {
  std::vector<FieldGroup> groups = field_groups(card.examination.fields);
  if (sources.empty()) return groups;
  for (FieldGroup& group : groups) {
    group.shown.insert(group.shown.end(), group.all_no.begin(), group.all_no.end());
    group.all_no.clear();
  }
  return groups;
}

}  // namespace

Html fields_part(const Card& card, const MemoryPlan& plan, const Sources& sources) {
  if (plan.groups.empty())
    return element("p",
                   "This layout names no fields: it knows the chip and nothing about the RAM.");
  Html tables;
  for (const FieldGroup& group : groups_for(card, sources))
    tables += group_table(group, plan, sources);
  return element("div", {{"class", "two-columns"}}, tables);
}

}  // namespace rtcmend
