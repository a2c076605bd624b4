// Where each fact of the bench sheet comes from.
#include <algorithm>
#include <array>
#include <fmt/format.h>

#include "sheet/sheet_parts.h"

namespace rtcmend {

namespace {

/// Full titles of the short names that sources are cited by.
struct ShortName {
  std::string_view name, title;
};
constexpr std::array<ShortName, 9> short_names{{
    {"MC146818A", "Real-Time Clock Plus RAM (RTC), data sheet"},
    {"DS12885", "Real-Time Clocks DS12885, DS12887 and relatives, data sheet 19-5213 Rev 4, 4/10"},
    {"RBIL61", "Ralf Brown's Interrupt List, release 61, file CMOS.LST"},
    {"TechHelp", "Tech Help! The Electronic Technical Reference Manual, fixed-disk types"},
    {"AT-TR", "Personal Computer AT Technical Reference, 1984, as reported by RBIL61"},
    {"OEM-manual", "owners' manuals of the 1990s that print tables of POST messages"},
    {"CRC-cat", "Catalogue of parametrised CRC algorithms"},
    {"LiCoin", "Lithium Coin Handbook and Application Manual, form 12006-A"},
    {"IEC60086", "Primary batteries, cell designations"},
}};

void add(Sources& sources, const std::string& source) {
  if (source.empty()) return;
  if (std::find(sources.begin(), sources.end(), source) == sources.end()) sources.push_back(source);
}

/// The layout's own list, each line once, then the short names in use that it leaves out.
std::vector<std::string> titles(const Layout& layout, const Sources& sources) {
  Sources all;
  for (const std::string& line : layout.sources) add(all, line);
  const auto cited = [&](std::string_view name) {
    return std::any_of(sources.begin(), sources.end(), [&](const std::string& source) {
      return source.find(name) != std::string::npos;
    });
  };
  const auto told = [&](std::string_view name) {
    return std::any_of(all.begin(), all.end(), [&](const std::string& line) {
      return line.starts_with(std::string(name) + ":");
    });
  };
  for (const ShortName& one : short_names)
    if (cited(one.name) && !told(one.name)) add(all, fmt::format("{}: {}", one.name, one.title));
  return all;
}

Html list_of(const std::vector<std::string>& lines) {
  Html items;
  for (const std::string& line : lines) items += element("li", line);
  return element("ul", items);
}

}  // namespace

Sources sources_of(const Sheet& sheet) {
  Sources sources;
  add(sources, chip_source);
  for (const Field& field : sheet.card.layout.fields) add(sources, field.source);
  for (const Check& check : sheet.card.layout.checks) add(sources, check.source);
  for (const Finding& finding : sheet.card.examination.findings) add(sources, finding.source);
  for (const Foretold& foretold : sheet.forecast.codes) add(sources, foretold.code->source);
  return sources;
}

Html source_mark(const Sources& sources, const std::string& source) {
  const auto found = std::find(sources.begin(), sources.end(), source);
  if (found == sources.end()) return {};
  const auto number = fmt::format("{}", found - sources.begin() + 1);
  return element("a", {{"class", "source"}, {"href", "#source-" + number}},
                 element("span", {{"class", "unseen"}}, "source ") + words(number));
}

Html sources_part(const Sheet& sheet, const Sources& sources) {
  Html items;
  for (std::size_t i = 0; i < sources.size(); ++i)
    items += element("li", {{"id", fmt::format("source-{}", i + 1)}}, sources[i]);
  Html all = element("p", "The small numbers beside fields, checks and findings stand for these.") +
             element("ol", {{"class", "sources"}}, items);
  all += element("h3", "Titles") + list_of(titles(sheet.card.layout, sources));
  if (!sheet.card.layout.notes.empty())
    all += element("h3", "About this layout") + list_of(sheet.card.layout.notes);
  return all;
}

}  // namespace rtcmend
