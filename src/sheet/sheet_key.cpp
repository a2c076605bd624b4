// The key of the drawing: who owns which bytes, which line is which check, and what the marks mean.
#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "render/check_words.h"
#include "sheet/sheet_parts.h"
#include "sheet/sheet_shapes.h"

namespace rtcmend {

namespace {

/// The bytes of a plan that answer to a question.
template <typename Question>
Addresses bytes_where(const MemoryPlan& plan, Question question) {
  Addresses found;
  for (const PlannedByte& byte : plan.bytes)
    if (question(byte)) found.push_back(byte.at);
  return found;
}

/// A small drawing beside its words, which say all of it: hidden from screen readers.
Html sample(const Html& drawing) {
  return element("svg",
                 {{"class", "drawing sample"},
                  {"viewBox", fmt::format("0 0 {} {}", cell_width, cell_height)},
                  {"aria-hidden", "true"}},
                 drawing);
}

Html entry(const Html& drawing, const std::string& what, const Html& more) {
  return element("li", sample(drawing) + element("span", element("b", what) + more));
}

/// A cell of the drawing with nothing but an owner.
Html owner_sample(Owner owner, std::size_t group, const std::string& label) {
  Html ground = lone("rect", {{"class", tint_class(owner, group) + " framed"},
                              {"x", "1"},
                              {"y", "1"},
                              {"width", fmt::format("{}", cell_width - 2)},
                              {"height", fmt::format("{}", cell_height - 2)}});
  if (label.empty()) return ground;
  return ground + element("text", {{"class", "letter"}, {"x", "30"}, {"y", "35"}}, label);
}

Html owner_entry(const Html& drawing, const std::string& what, const Addresses& at) {
  if (at.empty()) return {};
  return entry(drawing, what, own_markup(": ") + bytes_text(at));
}

Html owners(const MemoryPlan& plan) {
  const auto of = [&](Owner owner) {
    return bytes_where(plan, [&](const PlannedByte& byte) { return byte.owner == owner; });
  };
  Html all = owner_entry(owner_sample(Owner::clock, 0, ""), "Time, date, alarm", of(Owner::clock));
  all +=
      owner_entry(owner_sample(Owner::registers, 0, ""), "Registers A to D", of(Owner::registers));
  for (std::size_t group = 0; group < plan.groups.size(); ++group)
    all += owner_entry(
        owner_sample(Owner::group, group, group_letter(group)), group_title(plan.groups[group]),
        bytes_where(plan, [&](const PlannedByte& byte) {
          return std::find(byte.groups.begin(), byte.groups.end(), group) != byte.groups.end();
        }));
  all += owner_entry(owner_sample(Owner::check, 0, ""), "Stored checks", of(Owner::check));
  return all + owner_entry(owner_sample(Owner::nobody, 0, ""), "The layout gives no meaning",
                           of(Owner::nobody));
}

Html check_entries(const Card& card) {
  Html all;
  const auto& checks = card.examination.checks;
  for (std::size_t i = 0; i < checks.size(); ++i) {
    const Check& check = *checks[i].check;
    const Html line = coverage_line(i, 2, cell_width / 2, cell_height / 2) +
                      seal_mark(checks[i], cell_width / 2 + 6, cell_height / 2);
    all +=
        entry(line, fmt::format("{} {}", i + 1, check.id),
              words(checks[i].counts
                        ? fmt::format(" covers {}, stored at {}: {}", covered_text(check),
                                      to_text(stored_addresses(check)), check_standing(checks[i]))
                        : std::string(" does not count here: no line")));
  }
  return all;
}

Html mark_entries(const MemoryPlan& plan, const Card& card) {
  Html all;
  const auto damaged = [&](Damage damage) {
    return bytes_where(plan, [&](const PlannedByte& byte) { return byte.damage == damage; });
  };
  all += owner_entry(strike_mark(0, 0), "Damaged, a fault names it", damaged(Damage::fault));
  all += owner_entry(wave_mark(0, -14), "In doubt", damaged(Damage::doubt));
  all += owner_entry(ring_mark(0, -5), "Suspected, the likeliest repair",
                     bytes_where(plan, [](const PlannedByte& byte) { return byte.suspected; }));
  all += owner_entry(dashed_mark(0, 0), "Unknown, the dump does not hold it",
                     card.dump.image.unknown());
  const Addresses hidden =
      bytes_where(plan, [](const PlannedByte& byte) { return byte.concealed; });
  return all + owner_entry(element("text", {{"class", "value"}, {"x", "30"}, {"y", "36"}}, "**"),
                           "A password's, never shown", hidden);
}

/// Which squares mean what, as far as this sheet draws them.
Html square_note(const std::vector<CheckResult>& checks) {
  if (checks.empty()) return {};
  return element("p", {{"class", "small"}},
                 "A check's line runs under the bytes that it covers and ends in a square where it "
                 "is stored: filled when the check holds, crossed when it does not, empty when it "
                 "cannot be judged.");
}

}  // namespace

Html memory_key(const MemoryPlan& plan, const Card& card) {
  const Html items = owners(plan) + check_entries(card) + mark_entries(plan, card);
  return element("ul", {{"class", "key"}, {"aria-label", "Key to the plan"}}, items) +
         square_note(card.examination.checks);
}

}  // namespace rtcmend
