#include "discover/shared_motion.h"

#include <algorithm>

namespace rtcmend {

namespace {

// Fewer dumps give the same step by luck too often.
constexpr std::size_t least_dumps_that_count = 4;

// How a byte differs from the first dump, in the three ways in which two bytes can be in step.
struct Motion {
  DumpSet::Bytes rise, fall, flips;
};

Motion motion_of(const DumpSet& evidence, Address at) {
  Motion motion;
  for (const DumpSet::Bytes& dump : evidence.dumps) {
    motion.rise.push_back(static_cast<std::uint8_t>(dump[at] - evidence.dumps[0][at]));
    motion.fall.push_back(static_cast<std::uint8_t>(evidence.dumps[0][at] - dump[at]));
    motion.flips.push_back(dump[at] ^ evidence.dumps[0][at]);
  }
  return motion;
}

bool in_step(const Motion& a, const Motion& b) {
  return a.rise == b.rise || a.rise == b.fall || a.flips == b.flips;
}

bool counts(std::span<const DumpSet::Bytes> dumps, std::size_t at) {
  const auto step = static_cast<std::uint8_t>(dumps[1][at] - dumps[0][at]);
  if (step == 0 || step == 0x80) return false;  // 80h there and back is a flag
  for (std::size_t i = 2; i < dumps.size(); ++i)
    if (static_cast<std::uint8_t>(dumps[i][at] - dumps[i - 1][at]) != step) return false;
  return true;
}

}  // namespace

Addresses find_counting(std::span<const DumpSet::Bytes> dumps, const std::vector<bool>& known) {
  Addresses counting;
  if (dumps.size() < least_dumps_that_count) return counting;
  for (std::size_t at = 0; at < known.size(); ++at)
    if (known[at] && counts(dumps, at)) counting.push_back(static_cast<Address>(at));
  return counting;
}

bool is_shared_motion(const DumpSet& evidence, const Match& match) {
  std::optional<Motion> first;
  for (unsigned at = match.range.first; at <= match.range.last; ++at) {
    if (!evidence.varies[at] || evidence.hole[at] || evidence.restless[at]) continue;
    const Motion motion = motion_of(evidence, static_cast<Address>(at));
    if (!first)
      first = motion;
    else if (!in_step(*first, motion))
      return false;
  }
  return true;
}

}  // namespace rtcmend
