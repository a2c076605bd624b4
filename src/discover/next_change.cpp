#include "discover/next_change.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace rtcmend {

namespace {

// Enough for a person to find a setting that lives there.
constexpr std::size_t most_bytes_named = 16;

// The models that a further dump has to decide between: those that are no luck, or all of them.
std::vector<const Model*> candidates_among(const std::vector<Model>& models) {
  std::vector<const Model*> found, all;
  for (const Model& model : models) {
    if (model.found() && (found.empty() || found[0]->check.stored_at == model.check.stored_at))
      found.push_back(&model);
    all.push_back(&model);
  }
  return found.empty() ? all : found;
}

double share_covering(const DumpSet& evidence, const Model& model, Address at) {
  const auto covering = std::ranges::count_if(
      model.family, [&](const Match& match) { return evidence.covers(match.range, at); });
  return static_cast<double>(covering) / static_cast<double>(model.family.size());
}

double share_of(const DumpSet& evidence, const std::vector<const Model*>& candidates, Address at) {
  double share = 0;
  for (const Model* model : candidates) share += share_covering(evidence, *model, at);
  return share / static_cast<double>(candidates.size());
}

bool can_be_changed(const DumpSet& evidence, const std::vector<const Model*>& candidates,
                    Address at) {
  if (at < Image::ram_start || !evidence.known[at] || evidence.varies[at]) return false;
  return std::ranges::none_of(candidates, [&](const Model* model) {
    return at == model->match.at || (model->match.formula.width == 16 && at == model->match.at + 1);
  });
}

NextChange ask_for_more(const DumpSet& evidence) {
  Addresses unseen;
  for (std::size_t at = Image::ram_start; at < evidence.size(); ++at)
    if (evidence.known[at] && !evidence.varies[at]) unseen.push_back(static_cast<Address>(at));
  if (unseen.empty())
    return {{}, "every byte has varied already: any other change, saved and dumped, adds as much"};
  return {unseen,
          "no dump so far changed these bytes: change as many settings at once as you can, "
          "so that some of them change"};
}

}  // namespace

NextChange choose_next_change(const DumpSet& evidence, const std::vector<Model>& models) {
  const std::vector<const Model*> candidates = candidates_among(models);
  if (candidates.empty()) return ask_for_more(evidence);

  // Bytes by how evenly they split, best first; equal ones together, for a person to choose from.
  double best = 0, share = 0;
  Addresses bytes;
  for (std::size_t i = 0; i < evidence.size(); ++i) {
    const auto at = static_cast<Address>(i);
    if (!can_be_changed(evidence, candidates, at)) continue;
    const double covering = share_of(evidence, candidates, at);
    const double split = std::min(covering, 1 - covering);
    if (split < best + 1e-9 && !(split > 0 && split > best - 1e-9)) continue;
    if (split > best + 1e-9) bytes.clear();
    best = std::max(best, split);
    share = covering;
    bytes.push_back(at);
  }
  if (bytes.size() > most_bytes_named) bytes.resize(most_bytes_named);
  const bool settled = candidates.size() == 1 && candidates.front()->found();
  if (bytes.empty() && !settled) return ask_for_more(evidence);
  if (bytes.empty()) return {{}, "nothing is left to split"};
  return {
      bytes,
      fmt::format("{:.0f}% of what the dumps cannot tell apart would cover it. Change as much "
                  "else at once as you can: every dump in which everything is another tells most",
                  100 * share)};
}

}  // namespace rtcmend
