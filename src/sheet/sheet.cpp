#include "sheet/sheet.h"

#include <fmt/format.h>

#include "render/words.h"
#include "sheet/record_card.h"
#include "sheet/sheet_parts.h"
#include "sheet/sheet_style.h"

namespace rtcmend {

namespace {

std::string file_name(const std::string& path) {
  const auto slash = path.find_last_of("/\\");
  return slash == std::string::npos ? path : path.substr(slash + 1);
}

Html section(const SheetSection& part) {
  const std::string heading = std::string(part.id) + "-heading";
  return element("section", {{"id", part.id}, {"aria-labelledby", heading}},
                 element("h2", {{"id", heading}}, part.heading) + part.content);
}

Html pair(const std::string& name, const Html& value) {
  return element("div", element("dt", name) + element("dd", value));
}

Html facts(const Sheet& sheet) {
  const Card& card = sheet.card;
  Html all;
  if (!sheet.title.empty()) all += pair("File", words(file_name(card.name)));
  all += pair("Dump", words(dump_words(card.dump, card.layout)));
  all += pair("Layout", element("code", card.layout.id) + own_markup(" ") +
                            words(card.layout.title + from_a_file(card.layout)));
  const std::string& note = sheet.note.empty() ? card.dump.note : sheet.note;
  if (!note.empty()) all += pair("Machine", word_lines(note));
  return element("dl", {{"class", "facts"}}, all);
}

/// Lines for the pen: paper only.
Html by_hand() {
  Html lines;
  for (const std::string& what : pen_lines()) lines += element("div", element("span", what));
  return element("div", {{"class", "by-hand"}}, lines);
}

Html verdict_stamp(const Examination& examination) {
  const char* kind = examination.sound ? "stamp verdict sound" : "stamp verdict fault";
  return element("p", {{"class", kind}}, verdict(examination.standing, examination.findings));
}

Html banner(const Sheet& sheet) {
  Html all = element("p", {{"class", "kind"}}, "Bench sheet");
  all += element("h1", sheet_title(sheet)) + verdict_stamp(sheet.card.examination);
  return element("header", all + facts(sheet) + by_hand());
}

Html contents(const std::vector<SheetSection>& parts) {
  Html items;
  for (const SheetSection& part : parts)
    items += element("li", element("a", {{"href", std::string("#") + part.id}}, part.heading));
  return element("nav", {{"aria-label", "On this sheet"}}, element("ul", items));
}

/// Findings; and codes, which have a part of their own where there are any.
Html outlook(const Sheet& sheet, const Sources& sources) {
  const Html findings = findings_part(sheet, sources);
  return has_codes(sheet) ? findings : findings + codes_part(sheet, sources);
}

/// The first page: what the chip says.
std::vector<SheetSection> what_it_says(const Sheet& sheet, const Sources& sources) {
  const Card& card = sheet.card;
  const MemoryPlan plan =
      with_suspects(memory_plan(card.dump.image, card.layout, card.examination), sheet.suspects);
  const Html memory =
      wide("Plan of the memory", memory_drawing(plan, card)) + memory_key(plan, card);
  std::vector<SheetSection> parts{
      {"fields", "Settings", clock_part(card.examination.clock) + fields_part(card, plan, sources)},
      {"memory", "Plan of the memory", memory},
      {"findings", "Findings", outlook(sheet, sources)}};
  if (has_codes(sheet))
    parts.push_back({"codes", "Codes to expect at power-on", codes_part(sheet, sources)});
  return parts;
}

std::vector<SheetSection> sections(const Sheet& sheet) {
  const Card& card = sheet.card;
  const Sources sources = sheet.sources ? sources_of(sheet) : Sources{};
  std::vector<SheetSection> parts = what_it_says(sheet, sources);
  parts.push_back({"rows", "Bytes for typing, and for a phone", copying_part(card)});
  parts.push_back({"cautions", "Cautions for the bench", cautions_part()});
  if (sheet.plan) parts.push_back({"plan", "The next cell", plan_part(*sheet.plan)});
  if (!sheet.sources) return parts;
  parts.push_back({"checks", "Checks", checks_part(card, sources)});
  parts.push_back({"registers", "Registers A to D", registers_part(card.dump.image, sources)});
  parts.push_back({"sources", "Where each fact comes from", sources_part(sheet, sources)});
  return parts;
}

/// How close its lines stand on paper: with nothing asked for beside it is to fit two pages, and a
/// sound image of 64 bytes one.
std::string tightness(const Sheet& sheet) {
  if (sheet.plan || sheet.sources) return "card";
  const bool small = sheet.card.dump.image.size() == Image::small_size;
  return sheet.card.examination.sound && small ? "card short one-page" : "card short";
}

/// The policy keeps the page from running or fetching anything, whatever stands in it.
Html head(const Sheet& sheet) {
  Html all = lone("meta", {{"charset", "utf-8"}});
  all += lone("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}});
  all += lone("meta", {{"http-equiv", "Content-Security-Policy"},
                       {"content",
                        "default-src 'none'; style-src 'unsafe-inline'; "
                        "base-uri 'none'; form-action 'none'"}});
  all += element("title", "Bench sheet: " + sheet_title(sheet));
  return element("head",
                 all + element("style", own_markup(record_card_css()) + own_markup(sheet_css())));
}

}  // namespace

Html wide(const std::string& label, const Html& content) {
  return element("div",
                 {{"class", "wide"}, {"role", "group"}, {"aria-label", label}, {"tabindex", "0"}},
                 content);
}

Html bytes_text(const Addresses& addresses) {
  return element("span", {{"class", "bytes"}}, to_text(addresses));
}

std::string sheet_title(const Sheet& sheet) {
  return sheet.title.empty() ? file_name(sheet.card.name) : sheet.title;
}

const std::vector<std::string>& pen_lines() {
  static const std::vector<std::string> lines{
      "Machine", "Owner", "Date", "Worked on by", "Chip, as marked", "Cell, volts measured"};
  return lines;
}

std::string sheet_html(const Sheet& sheet) {
  const std::vector<SheetSection> parts = sections(sheet);
  Html main;
  for (const SheetSection& part : parts) main += section(part);
  const Html caution_line =
      element("p", {{"class", "first"}},
              words("Before anything is opened or soldered, read ") +
                  element("a", {{"href", "#cautions"}}, "the cautions") + words("."));
  const Html body =
      element("div", {{"class", tightness(sheet)}},
              banner(sheet) + contents(parts) + element("main", caution_line + main) +
                  element("footer", element("p",
                                            "Made by rtcmend. Bytes of passwords are left out "
                                            "on purpose.")));
  return "<!doctype html>\n" +
         element("html", {{"lang", "en"}}, head(sheet) + element("body", body)).text() + "\n";
}

}  // namespace rtcmend
