// What the bench sheet says about the dump: checks, findings with likely repairs, POST codes.
#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "render/check_words.h"
#include "render/words.h"
#include "sheet/sheet_parts.h"
#include "sheet/sheet_shapes.h"

namespace rtcmend {

namespace {

std::string value_text(const CheckResult& result, const std::optional<std::uint16_t>& value) {
  if (!value) return "??";
  return result.counts ? check_digits(*result.check, *value) : "**";
}

Html check_row(const CheckResult& result, std::size_t index, const Sources& sources) {
  const Check& check = *result.check;
  Html row = element("th", {{"scope", "row"}},
                     words(fmt::format("{} ", index + 1)) + element("code", check.id));
  row += element("td", describe(check));
  row += element("td", {{"class", "bytes"}}, covered_text(check));
  row += element("td", {{"class", "bytes"}}, to_text(stored_addresses(check)));
  row += element("td", {{"class", "bytes"}}, value_text(result, result.stored));
  row += element("td", {{"class", "bytes"}}, value_text(result, result.computed));
  row += element("td", {{"class", result.ok() ? "" : "wrong"}}, check_standing(result));
  row += element("td", {{"class", "mark"}}, source_mark(sources, check.source));
  return element("tr", row);
}

Html finding_item(const Finding& finding, const Sources& sources) {
  const std::string severity(name(finding.severity()));
  Html head = element("span", {{"class", "stamp " + severity}}, severity) + own_markup(" ") +
              element("code", std::string(finding.id()));
  if (!finding.at.empty()) head += own_markup(" at ") + bytes_text(finding.at);
  Html body = element("p", {{"class", "what"}},
                      words(finding.text) + own_markup(" ") + source_mark(sources, finding.source));
  if (!finding.advice.empty())
    body += element("p", {{"class", "do"}},
                    element("b", "Do: ") + words(in_plain_words(finding.advice)));
  return element("li", element("p", {{"class", "head"}}, head) + body);
}

Html suspects_list(const std::vector<Suspect>& suspects) {
  constexpr std::size_t most = 5;  // a sheet is to be read; verify --json lists them all
  if (suspects.empty()) return {};
  Html items;
  for (std::size_t i = 0; i < suspects.size() && i < most; ++i)
    items += element("li", element("b", odds_words(suspects[i].odds)) + own_markup(" ") +
                               words(suspects[i].text) + own_markup(" ") +
                               element("code", suspects[i].id));
  Html all = element("h3", "Small repairs that would explain it") +
             element("ol", {{"class", "suspects"}}, items);
  if (suspects.size() > most)
    all += element("p", {{"class", "small"}},
                   fmt::format("{} less likely ones are left out.", suspects.size() - most));
  for (const OpenShare& open : none_of_these(suspects))
    all += element("p", {{"class", "small"}},
                   fmt::format("None of these, for {}: {}.", join(open.mends, " and "),
                               odds_words(open.odds)));
  return all;
}

Html code_row(const Foretold& foretold, const Sources& sources) {
  const PostCode& code = *foretold.code;
  Html means = words(code.means);
  for (const std::string& why : foretold.why)
    means += element("span", {{"class", "remark block"}}, "Because: " + why);
  Html row = element("th", {{"scope", "row"}, {"class", "bytes"}}, code.code);
  row += element("td", means);
  row += element("td", in_plain_words(code.remedy));
  if (!sources.empty())
    row += element("td", {{"class", "mark"}}, source_mark(sources, code.source));
  return element("tr", row);
}

}  // namespace

std::string check_standing(const CheckResult& result) {
  if (!result.counts) return "does not count here";
  if (!result.unknown.empty()) return "cannot be judged: unknown " + to_text(result.unknown);
  if (result.blank) return "proves nothing: every byte is the same";
  return result.ok() ? "holds" : "DOES NOT HOLD";
}

Html checks_part(const Card& card, const Sources& sources) {
  if (card.examination.checks.empty())
    return element("p", "None: this layout has no rule that ties bytes together.");
  Html head;
  for (const char* title :
       {"Check", "Rule", "Covers", "Stored at", "Stored", "Computed", "Standing", "Source"})
    head += element("th", {{"scope", "col"}}, title);
  Html rows;
  for (std::size_t i = 0; i < card.examination.checks.size(); ++i)
    rows += check_row(card.examination.checks[i], i, sources);
  return wide("Checks", element("table", {{"class", "checks"}},
                                element("thead", element("tr", head)) + element("tbody", rows)));
}

Html findings_part(const Sheet& sheet, const Sources& sources) {
  const auto& findings = sheet.card.examination.findings;
  if (findings.empty()) return element("p", "None. Every check holds and nothing looks odd.");
  Html items;
  for (const Finding& finding : findings) items += finding_item(finding, sources);
  const bool many = findings.size() > 4;
  return element("ol", {{"class", many ? "findings many" : "findings"}}, items) +
         suspects_list(sheet.suspects);
}

bool has_codes(const Sheet& sheet) {
  return sheet.forecast.misread || !sheet.forecast.codes.empty();
}

Html codes_part(const Sheet& sheet, const Sources& sources) {
  Html limit;
  for (const Unpromised& unsettled : sheet.forecast.unsettled)
    limit += element("p", {{"class", "small"}}, "No promise: " + unsettled.text);
  limit +=
      element("p", {{"class", "small"}},
              "A drive or adapter that fails raises its own code as well, whatever the chip says.");
  if (sheet.forecast.misread)
    return element("p", own_markup("The dump was misread, so nothing can be foretold from it."));
  if (sheet.forecast.codes.empty())
    return element("p", "Nothing in this image would raise a code at power-on.") + limit;
  Html head;
  std::vector<const char*> titles{"Code", "Means", "Do"};
  if (!sources.empty()) titles.push_back("Source");
  for (const char* title : titles) head += element("th", {{"scope", "col"}}, title);
  Html rows;
  for (const Foretold& foretold : sheet.forecast.codes) rows += code_row(foretold, sources);
  const bool many = sheet.forecast.codes.size() > 4;
  return element("table", {{"class", many ? "codes many" : "codes"}},
                 element("caption", "In the order of work") +
                     element("thead", element("tr", head)) + element("tbody", rows)) +
         limit;
}

}  // namespace rtcmend
