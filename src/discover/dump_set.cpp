#include "discover/dump_set.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <fmt/format.h>

#include "base/error.h"
#include "base/text.h"
#include "discover/shared_motion.h"

namespace rtcmend {

namespace {

constexpr std::size_t most_bytes = Image::large_size;

// A row of bits over the addresses, for elimination over GF(2).
using Row = std::array<std::uint64_t, most_bytes / 8>;

bool is_zero(const Row& row) {
  return std::ranges::all_of(row, [](std::uint64_t word) { return word == 0; });
}

std::size_t lowest_bit(const Row& row) {
  std::size_t word = 0;
  while (row[word] == 0) ++word;
  return word * 64 + static_cast<std::size_t>(std::countr_zero(row[word]));
}

// Rows that are independent of each other; each keeps a leading bit that the later ones lack.
class Basis {
 public:
  // Whether the row says something new; then it is kept.
  bool add(Row row) {
    for (const Row& other : rows_) {
      const std::size_t lead = lowest_bit(other);
      if ((row[lead / 64] >> (lead % 64) & 1U) == 0) continue;
      for (std::size_t i = 0; i < row.size(); ++i) row[i] ^= other[i];
    }
    if (is_zero(row)) return false;
    rows_.push_back(row);
    return true;
  }

 private:
  std::vector<Row> rows_;
};

template <typename Wanted>
Row difference_row(const DumpSet& evidence, std::size_t pair, Wanted wanted) {
  Row row{};
  for (std::size_t at = 0; at < evidence.size(); ++at)
    if (evidence.varies[at] && !evidence.restless[at] && wanted(static_cast<Address>(at)))
      row[at / 8] |= std::uint64_t{evidence.difference(pair, static_cast<Address>(at))}
                     << (at % 8 * 8);
  return row;
}

// How surprising it is that a stored byte did not change in this pair: not at all in dumps that
// differ in few bytes, as much as any other value in dumps that differ everywhere.
double bits_of_no_change(const DumpSet& evidence, std::size_t pair) {
  std::size_t same = 0, all = 0;
  for (std::size_t at = 0; at < evidence.size(); ++at) {
    if (!evidence.known[at]) continue;
    ++all;
    if (evidence.difference(pair, static_cast<Address>(at)) == 0) ++same;
  }
  const double rate = static_cast<double>(same + 1) / static_cast<double>(all + 256);
  return std::min(8.0, -std::log2(rate));
}

bool are_mostly_still(const DumpSet& evidence) {
  const auto known = std::ranges::count(evidence.known, true);
  const auto varying = std::ranges::count(evidence.varies, true);
  return varying * 10 < known * 9;
}

void find_runs(DumpSet& evidence) {
  bool open = false;
  for (std::size_t at = 0; at < evidence.size(); ++at) {
    if (evidence.hole[at]) continue;
    if (!evidence.known[at]) {
      open = false;
      continue;
    }
    if (!open) evidence.runs.emplace_back();
    open = true;
    evidence.runs.back().push_back(static_cast<Address>(at));
  }
}

void check_question(const DumpSet& evidence, const Question& question) {
  const auto need_known = [&](Address at, const char* choice) {
    if (at >= evidence.size() || !evidence.known[at])
      refuse_choice(choice, fmt::format("{} is not known in every dump", hex_prose(at)),
                    "bytes that all dumps hold");
  };
  if (question.at) need_known(*question.at, "at");
  if (!question.over) return;
  for (const Address at : to_addresses(*question.over))
    if (at >= evidence.size() || !evidence.hole[at]) need_known(at, "over");
}

DumpSet prepare(std::vector<DumpSet::Bytes> dumps, std::vector<bool> known,
                const Question& question) {
  DumpSet evidence;
  evidence.known = std::move(known);
  for (DumpSet::Bytes& dump : dumps) {
    if (std::ranges::find(evidence.dumps, dump) != evidence.dumps.end())
      ++evidence.repeats;
    else
      evidence.dumps.push_back(std::move(dump));
  }
  if (evidence.dumps.size() < 2)
    refuse("dumps", "a check shows only in how it changes, and these dumps are all the same",
           "change a setting in the machine's own setup, save, and dump again");

  evidence.hole.assign(evidence.size(), false);
  for (const Address at : question.holes)
    if (at < evidence.size()) evidence.hole[at] = true;
  evidence.varies.assign(evidence.size(), false);
  for (const DumpSet::Bytes& dump : evidence.dumps)
    for (std::size_t at = 0; at < evidence.size(); ++at)
      if (evidence.known[at] && dump[at] != evidence.dumps[0][at]) evidence.varies[at] = true;
  evidence.restless.assign(evidence.size(), false);
  for (const Address at : question.restless)
    if (at < evidence.size()) evidence.restless[at] = true;
  for (const Address at : find_counting(evidence.dumps, evidence.known))
    evidence.restless[at] = true;
  for (std::size_t pair = 0; pair < evidence.pairs(); ++pair)
    evidence.no_change_bits.push_back(bits_of_no_change(evidence, pair));
  evidence.mostly_still = are_mostly_still(evidence);
  find_runs(evidence);
  check_question(evidence, question);
  return evidence;
}

}  // namespace

DumpSet gather_evidence(std::span<const Image> dumps, const Question& question) {
  if (dumps.empty()) refuse("dumps", "there are none", "two or more good dumps of one machine");
  std::vector<DumpSet::Bytes> bytes;
  std::vector<bool> known(dumps[0].size(), true);
  for (const Image& dump : dumps) {
    if (dump.size() != known.size())
      refuse("dumps", fmt::format("one holds {} bytes, another {}", known.size(), dump.size()),
             "dumps of one machine, all of one size");
    for (const Address at : dump.unknown()) known[at] = false;
    bytes.emplace_back(dump.bytes().begin(), dump.bytes().end());
  }
  // A byte that one dump lacks must not make two dumps differ.
  for (DumpSet::Bytes& dump : bytes)
    for (std::size_t at = 0; at < known.size(); ++at)
      if (!known[at]) dump[at] = 0;
  return prepare(std::move(bytes), std::move(known), question);
}

DumpSet gather_evidence(std::span<const DumpSet::Bytes> dumps, const Question& question) {
  const std::size_t size = dumps.empty() ? 0 : dumps[0].size();
  if (size == 0 || size > most_bytes ||
      std::ranges::any_of(dumps, [size](const DumpSet::Bytes& d) { return d.size() != size; }))
    refuse("dumps", "they must all have one size, 1 to 128 bytes");
  return prepare({dumps.begin(), dumps.end()}, std::vector<bool>(size, true), question);
}

std::uint16_t stored_in(const DumpSet::Bytes& dump, Address at, Order order, unsigned width) {
  if (width == 8) return dump[at];
  const unsigned first = dump[at], second = dump[at + 1U];
  return static_cast<std::uint16_t>(order == Order::low_first ? second << 8 | first
                                                              : first << 8 | second);
}

DumpSet::Bytes covered_in(const DumpSet& evidence, const DumpSet::Bytes& dump, const Range& range) {
  DumpSet::Bytes covered;
  for (std::size_t at = range.first; at <= range.last; ++at)
    if (!evidence.hole[at]) covered.push_back(dump[at]);
  return covered;
}

double evidence_bits(const DumpSet& evidence, const Match& match) {
  Basis basis;
  double bits = 0;
  for (std::size_t pair = 0; pair < evidence.pairs(); ++pair) {
    const Row covered = difference_row(
        evidence, pair, [&](Address at) { return evidence.covers(match.range, at); });
    if (!basis.add(covered)) continue;
    for (Address at = match.at; at < match.at + match.formula.width / 8; ++at) {
      if (!evidence.varies[at] && evidence.mostly_still) continue;
      bits += evidence.difference(pair, at) != 0 ? 8.0 : evidence.no_change_bits[pair];
    }
  }
  return bits;
}

std::size_t independent_pairs(const DumpSet& evidence) {
  Basis basis;
  std::size_t count = 0;
  for (std::size_t pair = 0; pair < evidence.pairs(); ++pair)
    if (basis.add(difference_row(evidence, pair, [](Address) { return true; }))) ++count;
  return count;
}

}  // namespace rtcmend
