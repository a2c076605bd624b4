#include "terminal/map.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "chip/registers.h"
#include "terminal/columns.h"
#include "terminal/findings.h"
#include "terminal/heading.h"

namespace rtcmend {

namespace {

/// Letters for fields and stored checks. T, L and R are taken by the chip's own bytes.
constexpr std::string_view letters = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKMNOPQSUVWXYZ";
constexpr char nobody = '.', beyond_letters = '*';

/// What shares one letter: neighbours in the legend, apart in the chip perhaps.
struct Owner {
  char letter;
  std::string what;
  Addresses at;
};

/// What the chip itself uses a byte for, on every layout.
Owner* chip_owner(Address at, std::vector<Owner>& chip) {
  if (at > reg::d) return nullptr;
  if (at >= reg::a) return &chip[2];
  const bool alarm = at == reg::seconds_alarm || at == reg::minutes_alarm || at == reg::hours_alarm;
  return &chip[alarm ? 1 : 0];
}

std::string owners_of(const Layout& layout, Address at) {
  std::vector<std::string> names;
  for (const Field* field : layout.fields_at(at)) names.push_back(field->label);
  for (const Check* check : layout.checks_at(at)) names.push_back("stored check " + check->id);
  return join(names, "; ");
}

/// Everything that owns a byte, the chip first, then in the order of the addresses.
std::vector<Owner> owners(const Layout& layout, std::size_t size) {
  std::vector<Owner> chip = {
      {'T', "time and date", {}}, {'L', "alarm", {}}, {'R', "registers A to D", {}}};
  std::vector<Owner> rest;
  for (std::size_t i = 0; i < size; ++i) {
    const auto at = static_cast<Address>(i);
    const std::string what = owners_of(layout, at);
    if (what.empty()) {
      if (Owner* owner = chip_owner(at, chip)) owner->at.push_back(at);
      continue;
    }
    const auto same =
        std::find_if(rest.begin(), rest.end(), [&](const Owner& o) { return o.what == what; });
    if (same != rest.end()) {
      same->at.push_back(at);
      continue;
    }
    rest.push_back(
        {rest.size() < letters.size() ? letters[rest.size()] : beyond_letters, what, {at}});
  }
  chip.insert(chip.end(), rest.begin(), rest.end());
  return chip;
}

char letter_of(const std::vector<Owner>& all, Address at) {
  for (const Owner& owner : all)
    if (std::find(owner.at.begin(), owner.at.end(), at) != owner.at.end()) return owner.letter;
  return nobody;
}

/// The number of the one check that covers a byte, '+' for several, nothing for none.
std::string cover_of(const Layout& layout, Address at) {
  const auto covering = layout.checks_over(at);
  if (covering.empty()) return "";
  const auto number = static_cast<std::size_t>(covering.front() - layout.checks.data()) + 1;
  return covering.size() > 1 || number > 9 ? "+" : fmt::format("{}", number);
}

bool blamed(const std::vector<Finding>& findings, Address at) {
  return std::any_of(findings.begin(), findings.end(), [&](const Finding& finding) {
    return finding.is_fault() &&
           std::find(finding.at.begin(), finding.at.end(), at) != finding.at.end();
  });
}

std::string byte_cell(const Card& card, Address at, const Ink& ink) {
  const auto byte = card.dump.image.at(at);
  if (!byte) return ink(Tone::doubtful, "??");
  if (card.layout.is_private(at)) return ink(Tone::quiet, "**");
  return blamed(card.examination.findings, at) ? ink(Tone::bad, hex2(*byte)) : hex2(*byte);
}

std::string two_lines(const Card& card, const std::vector<Owner>& all, Address first,
                      const Ink& ink) {
  std::string bytes = "  " + hex2(first) + " ", keys = "     ";
  for (unsigned i = 0; i < 16; ++i) {
    const auto at = static_cast<Address>(first + i);
    const std::string key = letter_of(all, at) + cover_of(card.layout, at);
    const std::string gap = i == 8 ? "  " : " ";
    bytes += gap + byte_cell(card, at, ink);
    keys += gap + ink(Tone::quiet, key);
    if (i < 15) keys.append(2 - key.size(), ' ');
  }
  return bytes + "\n" + keys + "\n";
}

bool any_concealed(const Card& card) {
  return std::any_of(card.layout.fields.begin(), card.layout.fields.end(),
                     [](const Field& field) { return field.meaning == Meaning::concealed; });
}

std::string legend(const Card& card, const std::vector<Owner>& all) {
  std::string text = "\n";
  for (const Owner& owner : all)
    text +=
        fmt::format("  {}  {:<8} {}\n", owner.letter, narrow(owner.at), hanging(owner.what, 14));
  text += "  .           nobody's: the layout gives it no meaning\n";
  for (std::size_t i = 0; i < card.layout.checks.size() && i < 9; ++i)
    text += fmt::format("  {}           {}\n", i + 1,
                        hanging("covered by check " + card.layout.checks[i].id, 14));
  if (card.layout.checks.size() > 9)
    text += "  +           covered by several checks, or by one after the ninth\n";
  else if (card.layout.checks.size() > 1)
    text += "  +           covered by several checks\n";
  if (!card.dump.image.all_known()) text += "  ??          unknown: the dump does not hold it\n";
  if (any_concealed(card)) text += "  **          a password's: never shown\n";
  return text;
}

}  // namespace

std::string map_text(const Card& card, const Ink& ink) {
  const std::size_t size = card.dump.image.size();
  const std::vector<Owner> all = owners(card.layout, size);
  std::string text = heading(card, ink) + "\n";
  text += ink(Tone::quiet, "      x0 x1 x2 x3 x4 x5 x6 x7  x8 x9 xA xB xC xD xE xF") + "\n";
  for (std::size_t first = 0; first < size; first += 16)
    text += two_lines(card, all, static_cast<Address>(first), ink);
  return text + legend(card, all);
}

}  // namespace rtcmend
