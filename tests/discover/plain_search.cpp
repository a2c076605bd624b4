#include "discover/plain_search.h"

#include <algorithm>
#include <fmt/format.h>

#include "check/rule.h"

namespace rtcmend::test {

namespace {

using Bytes = DumpSet::Bytes;

bool is_hole(const Addresses& holes, std::size_t at) {
  return std::ranges::find(holes, at) != holes.end();
}

bool changes(const std::vector<Bytes>& dumps, std::size_t at) {
  return std::ranges::any_of(dumps, [&](const Bytes& dump) { return dump[at] != dumps[0][at]; });
}

std::vector<Range> ranges_that_change(const std::vector<Bytes>& dumps, const Addresses& holes) {
  std::vector<Range> ranges;
  for (std::size_t first = 0; first < dumps[0].size(); ++first)
    for (std::size_t last = first; last < dumps[0].size(); ++last) {
      if (is_hole(holes, first) || is_hole(holes, last)) continue;
      bool any = false;
      for (std::size_t at = first; at <= last; ++at)
        any = any || (changes(dumps, at) && !is_hole(holes, at));
      if (any) ranges.push_back({static_cast<Address>(first), static_cast<Address>(last)});
    }
  return ranges;
}

Bytes covered(const Bytes& dump, const Addresses& holes, const Range& range) {
  Bytes bytes;
  for (std::size_t at = range.first; at <= range.last; ++at)
    if (!is_hole(holes, at)) bytes.push_back(dump[at]);
  return bytes;
}

struct Spot {
  Address at;
  Order order;
};

std::vector<Spot> spots_outside(const std::vector<Bytes>& dumps, const Addresses& holes,
                                const Range& range, unsigned width) {
  std::vector<Spot> spots;
  for (std::size_t at = 0; at + width / 8 <= dumps[0].size(); ++at) {
    bool outside = true, any = false;
    for (std::size_t i = at; i < at + width / 8; ++i) {
      outside = outside && (!range.contains(static_cast<Address>(i)) || is_hole(holes, i));
      any = any || changes(dumps, i);
    }
    if (!outside || !any) continue;
    spots.push_back({static_cast<Address>(at), Order::high_first});
    if (width == 16) spots.push_back({static_cast<Address>(at), Order::low_first});
  }
  return spots;
}

std::uint16_t stored(const Bytes& dump, const Spot& spot, unsigned width) {
  if (width == 8) return dump[spot.at];
  const int first = dump[spot.at], second = dump[spot.at + 1U];
  return static_cast<std::uint16_t>(spot.order == Order::high_first ? first * 256 + second
                                                                    : second * 256 + first);
}

Bytes difference(const Bytes& a, const Bytes& b) {
  Bytes result(a.size());
  for (std::size_t i = 0; i < a.size(); ++i) result[i] = a[i] ^ b[i];
  return result;
}

std::uint16_t sum(const Formula& formula, const Bytes& bytes) {
  std::uint32_t total = 0;
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    std::uint32_t weight = 1;
    if (formula.pairs == Order::low_first && i % 2 == 1) weight = 256;
    if (formula.pairs == Order::high_first && i % 2 == 0) weight = 256;
    if (formula.kind == Formula::Kind::exclusive_or)
      total ^= bytes[i];
    else
      total += weight * bytes[i];
  }
  return static_cast<std::uint16_t>(total);
}

// stored - sum, or what stands for it: the same in every dump when the formula holds.
std::uint16_t constant(const Formula& formula, std::uint16_t value, std::uint16_t plain) {
  unsigned result = static_cast<unsigned>(value) - plain;
  if (formula.inverse) result = static_cast<unsigned>(value) + plain;
  if (formula.kind == Formula::Kind::exclusive_or) result = static_cast<unsigned>(value) ^ plain;
  return static_cast<std::uint16_t>(formula.width == 8 ? result & 0xFF : result);
}

std::vector<Formula> sum_formulas(unsigned width) {
  std::vector<Formula> formulas;
  for (const bool inverse : {false, true}) {
    Formula formula;
    formula.width = width;
    formula.inverse = inverse;
    formulas.push_back(formula);
    if (width == 8) continue;
    formula.pairs = Order::low_first;
    formulas.push_back(formula);
    formula.pairs = Order::high_first;
    formulas.push_back(formula);
  }
  Formula all;
  all.kind = Formula::Kind::exclusive_or;
  all.width = 8;
  if (width == 8) formulas.push_back(all);
  return formulas;
}

bool sum_holds(const std::vector<Bytes>& dumps, const Addresses& holes, const Formula& formula,
               const Range& range, const Spot& spot) {
  const auto constant_of = [&](const Bytes& dump) {
    return constant(formula, stored(dump, spot, formula.width),
                    sum(formula, covered(dump, holes, range)));
  };
  const std::uint16_t expected = constant_of(dumps[0]);
  return std::ranges::all_of(dumps, [&](const Bytes& d) { return constant_of(d) == expected; });
}

}  // namespace

std::vector<Match> plain_crc_search(const std::vector<Bytes>& dumps, const Addresses& holes,
                                    unsigned width, const Polynomials& polynomials) {
  std::vector<Match> matches;
  std::vector<Bytes> differences;
  for (std::size_t i = 1; i < dumps.size(); ++i)
    differences.push_back(difference(dumps[0], dumps[i]));
  for (const Range& range : ranges_that_change(dumps, holes)) {
    const std::vector<Spot> spots = spots_outside(dumps, holes, range, width);
    std::vector<Bytes> inside;
    for (const Bytes& d : differences) inside.push_back(covered(d, holes, range));
    for (unsigned poly = polynomials.first; poly <= polynomials.last; poly += 2) {
      for (const bool refin : {false, true}) {
        for (const bool refout : {false, true}) {
          const CrcModel model{width, static_cast<std::uint16_t>(poly), 0, refin, refout, 0};
          std::vector<Spot> left = spots;
          for (std::size_t i = 0; i < inside.size() && !left.empty(); ++i) {
            const std::uint16_t crc = crc_bitwise(model, inside[i]);
            std::erase_if(left,
                          [&](const Spot& s) { return stored(differences[i], s, width) != crc; });
          }
          for (const Spot& spot : left) {
            Formula formula;
            formula.kind = Formula::Kind::crc;
            formula.width = width;
            formula.poly = model.poly;
            formula.refin = refin;
            formula.refout = refout;
            matches.push_back({formula, range, spot.at, spot.order});
          }
        }
      }
    }
  }
  return matches;
}

std::vector<Match> plain_sum_search(const std::vector<Bytes>& dumps, const Addresses& holes,
                                    unsigned width) {
  std::vector<Match> matches;
  for (const Formula& formula : sum_formulas(width))
    for (const Range& range : ranges_that_change(dumps, holes))
      for (const Spot& spot : spots_outside(dumps, holes, range, width))
        if (sum_holds(dumps, holes, formula, range, spot))
          matches.push_back({formula, range, spot.at, spot.order});
  return matches;
}

std::vector<std::string> in_words(const std::vector<Match>& matches) {
  std::vector<std::string> words;
  for (const Match& match : matches) {
    const Formula& formula = match.formula;
    words.push_back(fmt::format(
        "kind {} width {} inverse {} pairs {} poly {:04X} refin {} refout {} over {:02X}-{:02X} at "
        "{:02X} {}",
        static_cast<int>(formula.kind), formula.width, formula.inverse,
        formula.pairs ? static_cast<int>(*formula.pairs) : -1, formula.poly, formula.refin,
        formula.refout, match.range.first, match.range.last, match.at,
        match.order == Order::high_first ? "high-first" : "low-first"));
  }
  std::ranges::sort(words);
  return words;
}

}  // namespace rtcmend::test
