#include "cli/search_options.h"

#include <algorithm>
#include <array>
#include <fmt/format.h>

#include "base/error.h"
#include "base/near_miss.h"
#include "base/text.h"
#include "layout/library.h"

namespace rtcmend {

namespace {

Range range_in(const char* option, const std::string& text) {
  const auto range = parse_range(text);
  if (!range)
    refuse(option, fmt::format("\"{}\" is not a range of bytes from 00 to 7F", text), "10-2D");
  return *range;
}

void take_kinds(const std::vector<std::string>& kinds, Question& question) {
  if (kinds.empty()) return;
  constexpr std::array legal = {"sum", "xor", "crc", "balance"};
  for (const std::string& kind : kinds)
    if (std::ranges::count(legal, kind) == 0)
      refuse("--kind", fmt::format("there is no kind \"{}\"", kind),
             near_or_all(kind, {legal.begin(), legal.end()}));
  const auto given = [&](const char* kind) { return std::ranges::count(kinds, kind) != 0; };
  question.sums = given("sum");
  question.xors = given("xor");
  question.crcs = given("crc");
  question.balances = given("balance");
}

std::vector<Check> familiar_checks() {
  std::vector<Check> checks;
  const auto add = [&](const Layout& layout) {
    checks.insert(checks.end(), layout.checks.begin(), layout.checks.end());
  };
  for (const LayoutClass& one : whole_classes()) add(one.core);
  for (const Trait& one : whole_traits()) add(one.part);
  return checks;
}

}  // namespace

void add_search(Options& options, SearchOptions& search) {
  options.values(search.kinds, "--kind", "KIND",
                 "only this kind of check: sum, xor, crc, balance; may be repeated");
  options.value(search.width, "--width", "BITS", "only checks of 8 or of 16 bits");
  options.value(search.over, "--over", "RANGE", "the covered bytes, when known: 10-2D");
  options.value(search.at, "--at", "ADDRESS",
                "the stored byte, or the lower one of two, when known: 2E");
  options.values(search.holes, "--hole", "RANGE",
                 "bytes that the check passes over; may be repeated");
}

Question question_from(const SearchOptions& search) {
  Question question;
  take_kinds(search.kinds, question);
  if (search.width != 0) {
    if (search.width != 8 && search.width != 16)
      refuse("--width", fmt::format("a check has 8 or 16 bits, not {}", search.width));
    question.width = static_cast<unsigned>(search.width);
  }
  if (!search.over.empty()) question.over = range_in("--over", search.over);
  if (!search.at.empty()) question.at = range_in("--at", search.at).first;
  for (const std::string& hole : search.holes)
    for (const Address at : to_addresses(range_in("--hole", hole))) question.holes.push_back(at);
  question.familiar = familiar_checks();
  return question;
}

}  // namespace rtcmend
