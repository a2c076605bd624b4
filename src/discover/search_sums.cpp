#include <algorithm>
#include <array>

#include "discover/places.h"
#include "discover/search.h"

namespace rtcmend {

namespace {

// Sums of the first n bytes of a run, kept apart by even and odd position: any range of any formula
// follows from two of them.
struct Prefix {
  std::uint32_t even = 0, odd = 0;
  std::uint8_t all = 0;  // xored
};

std::vector<Prefix> prefixes(const DumpSet::Bytes& dump, const Addresses& run) {
  std::vector<Prefix> sums(run.size() + 1);
  for (std::size_t i = 0; i < run.size(); ++i) {
    sums[i + 1] = sums[i];
    (i % 2 == 0 ? sums[i + 1].even : sums[i + 1].odd) += dump[run[i]];
    sums[i + 1].all ^= dump[run[i]];
  }
  return sums;
}

std::vector<Formula> open_formulas(const Question& question, unsigned width) {
  std::vector<Formula> formulas;
  const auto add_sum = [&](bool inverse, std::optional<Order> pairs) {
    formulas.push_back(
        {.kind = Formula::Kind::sum, .width = width, .inverse = inverse, .pairs = pairs});
  };
  if (question.sums) add_sum(false, std::nullopt);
  if (width == 8 ? wants_inverse_bytes(question) : question.sums) add_sum(true, std::nullopt);
  if (width == 16 && question.sums) {
    for (const bool inverse : {false, true})
      for (const Order order : {Order::low_first, Order::high_first}) add_sum(inverse, order);
  }
  if (width == 8 && question.xors)
    formulas.push_back({.kind = Formula::Kind::exclusive_or, .width = 8, .pairs = std::nullopt});
  return formulas;
}

// One run of coverable bytes with everything that is looked up in it.
struct RunSums {
  const DumpSet& evidence;
  const Addresses& run;
  std::vector<std::vector<Prefix>> sums;  // by dump
};

std::uint32_t value_in(const RunSums& run_sums, const Formula& formula, std::size_t dump,
                       std::size_t first, std::size_t end) {
  const Prefix& before = run_sums.sums[dump][first];
  const Prefix& after = run_sums.sums[dump][end];
  if (formula.kind == Formula::Kind::exclusive_or) return before.all ^ after.all;
  const std::uint32_t even = after.even - before.even, odd = after.odd - before.odd;
  if (!formula.pairs) return even + odd;
  const bool starts_even = first % 2 == 0;
  const std::uint32_t leading = starts_even ? even : odd, trailing = starts_even ? odd : even;
  return *formula.pairs == Order::low_first ? leading + (trailing << 8) : (leading << 8) + trailing;
}

// What a stored value must change by between the reference and a dump.
std::uint16_t wanted_change(const RunSums& run_sums, const Formula& formula, std::size_t pair,
                            std::size_t first, std::size_t end) {
  const std::uint32_t reference = value_in(run_sums, formula, 0, first, end);
  const std::uint32_t other = value_in(run_sums, formula, pair + 1, first, end);
  if (formula.kind == Formula::Kind::exclusive_or)
    return static_cast<std::uint16_t>(reference ^ other);
  const std::uint32_t rise = formula.inverse ? reference - other : other - reference;
  return static_cast<std::uint16_t>(formula.width == 8 ? rise & 0xFFU : rise & 0xFFFFU);
}

std::uint16_t stored_change(const DumpSet& evidence, const Formula& formula, const Place& place,
                            std::size_t pair) {
  const auto reference = stored_in(evidence.dumps[0], place.at, place.order, formula.width);
  const auto other = stored_in(evidence.dumps[pair + 1], place.at, place.order, formula.width);
  return formula.kind == Formula::Kind::exclusive_or
             ? static_cast<std::uint16_t>(reference ^ other)
             : static_cast<std::uint16_t>(formula.width == 8 ? (other - reference) & 0xFF
                                                             : other - reference);
}

ChangeIndex index_changes(const DumpSet& evidence, const Formula& formula,
                          const std::vector<Place>& places, std::size_t pair) {
  std::vector<ChangeIndex::Entry> entries;
  for (std::size_t i = 0; i < places.size(); ++i)
    entries.push_back(
        {stored_change(evidence, formula, places[i], pair), static_cast<std::uint16_t>(i), false});
  return ChangeIndex(std::move(entries));
}

bool other_pairs_agree(const RunSums& run_sums, const Formula& formula, const Place& place,
                       std::size_t first, std::size_t end) {
  for (std::size_t pair = 1; pair < run_sums.evidence.pairs(); ++pair)
    if (wanted_change(run_sums, formula, pair, first, end) !=
        stored_change(run_sums.evidence, formula, place, pair))
      return false;
  return true;
}

void keep(const Match& match, Harvest& harvest) {
  if (harvest.wants(match)) harvest.take(match);
}

void search_range(const RunSums& run_sums, const Formula& formula, const std::vector<Place>& places,
                  const ChangeIndex& index, std::size_t first, std::size_t end, Harvest& harvest) {
  const auto wanted = wanted_change(run_sums, formula, 0, first, end);
  if (!index.has(wanted)) return;
  const Range range{run_sums.run[first], run_sums.run[end - 1]};
  for (const ChangeIndex::Entry& entry : index.find(wanted)) {
    const Place& place = places[entry.place];
    if (!stands_clear(run_sums.evidence, range, place.at, formula.width)) continue;
    if (other_pairs_agree(run_sums, formula, place, first, end))
      keep({formula, range, place.at, place.order}, harvest);
  }
}

}  // namespace

SearchResult search_sums(const DumpSet& evidence, const Question& question, unsigned width,
                         const Threshold& threshold) {
  Harvest harvest(evidence, threshold);
  const std::vector<Place> places = open_places(evidence, question, width);
  for (const Formula& formula : open_formulas(question, width)) {
    const ChangeIndex index = index_changes(evidence, formula, places, 0);
    for (const Addresses& run : evidence.runs) {
      RunSums run_sums{evidence, run, {}};
      for (const DumpSet::Bytes& dump : evidence.dumps)
        run_sums.sums.push_back(prefixes(dump, run));
      for (std::size_t first = 0; first < run.size(); ++first) {
        bool changed = false;  // a range without a byte that changed says nothing
        for (std::size_t end = first + 1; end <= run.size(); ++end) {
          changed = changed || evidence.varies[run[end - 1]];
          if (!changed) continue;
          if (question.over && *question.over != Range{run[first], run[end - 1]}) continue;
          search_range(run_sums, formula, places, index, first, end, harvest);
        }
      }
    }
  }
  return harvest.bring_home();
}

}  // namespace rtcmend
