// How the whole CRC space is searched.
//
// Between two dumps the start value and the final xor drop out: the CRC of the difference, started
// from 0, must equal the difference of the stored values. A range matters only by the first byte in
// it that changed and by its end, so all ranges that begin in one stretch of unchanged bytes are
// one "start". For each polynomial and direction of bits, all starts walk to the end of the run
// side by side, one table step a byte, and each value is looked up among the changes of all stored
// places, in both byte orders and both directions. The lookup is one bit of an 8 KiB map; one value
// in a hundred gets past it and is then checked against the other pairs of dumps.

#include <algorithm>

#include "discover/places.h"
#include "discover/search.h"

namespace rtcmend {

namespace {

// Starts of one run whose first changed byte already differs in the same pair of dumps: that pair
// then never shows a difference of nothing, which would fit everywhere.
struct Lane {
  std::size_t pair;
  std::vector<std::uint16_t> firsts;  // positions in the run
};

struct Run {
  const Addresses& addresses;
  std::vector<Lane> lanes;
  // By direction of bits (0 as they are, 1 mirrored), then pair: differences along the run.
  std::array<std::vector<DumpSet::Bytes>, 2> differences;
};

// Everything that stays the same while the polynomials change.
struct Plan {
  const DumpSet& evidence;
  const Question& question;
  unsigned width;
  std::vector<Place> places;
  std::vector<ChangeIndex> changes;  // by pair
  std::vector<Run> runs;
};

// A polynomial at work in one direction.
struct Divider {
  std::uint16_t poly;
  bool refin;
  const CrcTable& table;
};

// A start and an end whose value is among the changes of some place.
struct Hit {
  std::size_t first, last;  // positions in the run
  std::uint16_t value;
};

std::uint16_t change_at(const Plan& plan, const Place& place, std::size_t pair) {
  return stored_in(plan.evidence.dumps[0], place.at, place.order, plan.width) ^
         stored_in(plan.evidence.dumps[pair + 1], place.at, place.order, plan.width);
}

ChangeIndex index_changes(const Plan& plan, std::size_t pair) {
  std::vector<ChangeIndex::Entry> entries;
  for (std::size_t i = 0; i < plan.places.size(); ++i) {
    const std::uint16_t change = change_at(plan, plan.places[i], pair);
    const auto place = static_cast<std::uint16_t>(i);
    entries.push_back({change, place, false});
    entries.push_back({mirror(change, plan.width), place, true});
  }
  return ChangeIndex(std::move(entries));
}

// The first changed byte of the ranges that begin at `position`.
std::size_t next_change(const DumpSet& evidence, const Addresses& run, std::size_t position) {
  while (position < run.size() && !evidence.varies[run[position]]) ++position;
  return position;
}

bool start_is_open(const DumpSet& evidence, const Question& question, const Addresses& run,
                   std::size_t position) {
  if (!question.over) return true;
  const auto wanted = std::ranges::find(run, question.over->first);
  if (wanted == run.end()) return false;
  return next_change(evidence, run, static_cast<std::size_t>(wanted - run.begin())) == position;
}

std::vector<Lane> find_lanes(const DumpSet& evidence, const Question& question,
                             const Addresses& run) {
  std::vector<Lane> lanes;
  for (std::size_t pair = 0; pair < evidence.pairs(); ++pair) lanes.push_back({pair, {}});
  for (std::size_t position = 0; position < run.size(); ++position) {
    if (!evidence.varies[run[position]]) continue;
    if (!start_is_open(evidence, question, run, position)) continue;
    std::size_t pair = 0;
    while (evidence.difference(pair, run[position]) == 0) ++pair;
    lanes[pair].firsts.push_back(static_cast<std::uint16_t>(position));
  }
  std::erase_if(lanes, [](const Lane& lane) { return lane.firsts.empty(); });
  return lanes;
}

Run prepare_run(const DumpSet& evidence, const Question& question, const Addresses& addresses) {
  Run run{addresses, find_lanes(evidence, question, addresses), {}};
  for (std::size_t pair = 0; pair < evidence.pairs(); ++pair) {
    DumpSet::Bytes straight, mirrored;
    for (const Address at : addresses) {
      straight.push_back(evidence.difference(pair, at));
      mirrored.push_back(static_cast<std::uint8_t>(mirror(straight.back(), 8)));
    }
    run.differences[0].push_back(std::move(straight));
    run.differences[1].push_back(std::move(mirrored));
  }
  return run;
}

template <unsigned Width>
std::uint16_t step(const CrcTable& table, std::uint16_t rest, std::uint8_t byte) {
  if constexpr (Width == 8) return crc_step8(table, rest, byte);
  return crc_step16(table, rest, byte);
}

template <unsigned Width>
std::uint16_t crc_between(const CrcTable& table, const DumpSet::Bytes& bytes, const Hit& hit) {
  std::uint16_t rest = 0;
  for (std::size_t i = hit.first; i <= hit.last; ++i) rest = step<Width>(table, rest, bytes[i]);
  return rest;
}

// The ranges of a hit: from every address of the unchanged stretch before its first changed byte.
void keep_ranges(const Plan& plan, const Run& run, const Hit& hit, Match match, Harvest& harvest) {
  if (!harvest.wants(match)) return;
  for (std::size_t first = hit.first + 1; first-- > 0;) {
    if (first != hit.first && plan.evidence.varies[run.addresses[first]]) return;
    match.range.first = run.addresses[first];
    if (!stands_clear(plan.evidence, match.range, match.at, plan.width)) return;
    if (!plan.question.over || *plan.question.over == match.range) harvest.take(match);
  }
}

template <unsigned Width>
void judge_hit(const Plan& plan, const Run& run, const Lane& lane, const Divider& divider,
               const Hit& hit, Harvest& harvest) {
  const Range range{run.addresses[hit.first], run.addresses[hit.last]};
  if (plan.question.over && plan.question.over->last != range.last) return;
  for (const ChangeIndex::Entry& entry : plan.changes[lane.pair].find(hit.value)) {
    const Place& place = plan.places[entry.place];
    if (!stands_clear(plan.evidence, range, place.at, Width)) continue;
    bool agrees = true;
    for (std::size_t pair = 0; agrees && pair < plan.evidence.pairs(); ++pair) {
      if (pair == lane.pair) continue;
      const std::uint16_t change = change_at(plan, place, pair);
      agrees = crc_between<Width>(divider.table, run.differences[divider.refin][pair], hit) ==
               (entry.mirrored ? mirror(change, Width) : change);
    }
    if (!agrees) continue;
    const Formula formula{.kind = Formula::Kind::crc,
                          .width = Width,
                          .pairs = std::nullopt,
                          .poly = divider.poly,
                          .refin = divider.refin,
                          .refout = entry.mirrored};
    keep_ranges(plan, run, hit, {formula, range, place.at, place.order}, harvest);
  }
}

// Walks all starts of a lane along the run and collects what the map lets through.
template <unsigned Width>
void walk(const Plan& plan, const Run& run, const Lane& lane, const Divider& divider,
          Harvest& harvest) {
  const auto& map = plan.changes[lane.pair].map();
  const DumpSet::Bytes& bytes = run.differences[divider.refin][lane.pair];
  std::array<std::uint16_t, 128> rests;
  std::array<std::uint8_t, 128> passed;
  std::size_t started = 0;
  for (std::size_t last = lane.firsts[0]; last < bytes.size(); ++last) {
    if (started < lane.firsts.size() && lane.firsts[started] == last) rests[started++] = 0;
    std::size_t count = 0;
    for (std::size_t i = 0; i < started; ++i) {
      const std::uint16_t rest = step<Width>(divider.table, rests[i], bytes[last]);
      rests[i] = rest;
      passed[count] = static_cast<std::uint8_t>(i);
      count += map[rest >> 6] >> (rest & 63U) & 1U;
    }
    for (std::size_t i = 0; i < count; ++i)
      judge_hit<Width>(plan, run, lane, divider, {lane.firsts[passed[i]], last, rests[passed[i]]},
                       harvest);
  }
}

template <unsigned Width>
void try_polynomial(const Plan& plan, std::uint16_t poly, Harvest& harvest) {
  const CrcTable table = crc_table(Width, poly);
  for (const bool refin : {false, true})
    for (const Run& run : plan.runs)
      for (const Lane& lane : run.lanes)
        walk<Width>(plan, run, lane, {poly, refin, table}, harvest);
}

}  // namespace

SearchResult search_crcs(const DumpSet& evidence, const Question& question, unsigned width,
                         const Threshold& threshold, const Watch& watch) {
  Plan plan{evidence, question, width, open_places(evidence, question, width), {}, {}};
  for (std::size_t pair = 0; pair < evidence.pairs(); ++pair)
    plan.changes.push_back(index_changes(plan, pair));
  for (const Addresses& addresses : evidence.runs)
    plan.runs.push_back(prepare_run(evidence, question, addresses));

  Harvest harvest(evidence, threshold);
  const unsigned polys = 1U << width;
  for (unsigned poly = 1; poly < polys; poly += 2) {
    if (watch.stopped() || harvest.full()) {
      harvest.stop();
      break;
    }
    if (watch.progress && poly % 512 == 1) watch.progress(static_cast<double>(poly) / polys);
    if (width == 8)
      try_polynomial<8>(plan, static_cast<std::uint16_t>(poly), harvest);
    else
      try_polynomial<16>(plan, static_cast<std::uint16_t>(poly), harvest);
  }
  return harvest.bring_home();
}

}  // namespace rtcmend
