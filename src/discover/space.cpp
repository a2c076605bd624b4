#include "discover/space.h"

#include <algorithm>
#include <cmath>

#include "discover/places.h"

namespace rtcmend {

namespace {

double count_formulas(const Question& question, unsigned width) {
  double formulas = 0;
  if (question.crcs) formulas += (width == 8 ? 128.0 : 32768.0) * 4;  // two reflections, free
  if (question.sums) formulas += 1;
  if (width == 8 ? wants_inverse_bytes(question) : question.sums) formulas += 1;
  if (width == 16 && question.sums) formulas += 4;  // byte pairs: two orders, plain and inverse
  if (width == 8 && question.xors) formulas += 1;
  return formulas;
}

double count_places(const DumpSet& evidence, const Question& question, const Range& range,
                    unsigned width) {
  double places = 0;
  for (unsigned at = 0; at + width / 8 <= evidence.size(); ++at) {
    if (question.at && *question.at != at) continue;
    const bool known = evidence.known[at] && (width == 8 || evidence.known[at + 1]);
    if (known && stands_clear(evidence, range, static_cast<Address>(at), width)) ++places;
  }
  return width == 8 ? places : places * 2;  // two orders
}

double count_places_of_ranges(const DumpSet& evidence, const Question& question, unsigned width) {
  double places = 0;
  for (const Addresses& run : evidence.runs) {
    for (std::size_t first = 0; first < run.size(); ++first) {
      for (std::size_t last = first; last < run.size(); ++last) {
        const Range range{run[first], run[last]};
        if (question.over && *question.over != range) continue;
        places += count_places(evidence, question, range, width);
      }
    }
  }
  return places;
}

}  // namespace

Space measure_space(const DumpSet& evidence, const Question& question, unsigned width,
                    double list_up_to) {
  Space space;
  space.width = width;
  space.pairs = independent_pairs(evidence);
  space.models =
      count_formulas(question, width) * count_places_of_ranges(evidence, question, width);
  if (space.models == 0) return space;
  const double per_pair = width;
  space.by_luck = chance_of(space, per_pair * static_cast<double>(space.pairs));
  const double wanted = std::log2(space.models / decisive_chance) / per_pair;
  const auto needed = static_cast<std::size_t>(std::ceil(std::max(1.0, wanted)));
  space.decide = needed + 1;
  space.more_dumps = needed > space.pairs ? needed - space.pairs : 0;
  space.listed = space.by_luck <= list_up_to;
  return space;
}

double chance_of(const Space& space, double evidence_bits) {
  return space.models * std::exp2(-evidence_bits);
}

}  // namespace rtcmend
