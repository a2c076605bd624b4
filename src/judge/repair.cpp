#include "judge/repair.h"

#include <algorithm>

namespace rtcmend {

namespace {

bool touches(const Check& check, Address at) {
  const auto among = [at](const Addresses& all) {
    return std::find(all.begin(), all.end(), at) != all.end();
  };
  if (among(stored_addresses(check)) || among(covered_addresses(check))) return true;
  if (check.when && check.when->at == at) return true;
  return std::any_of(check.over.begin(), check.over.end(), [at](const Covered& covered) {
    return covered.when && covered.when->at == at;
  });
}

bool touches_any(const Check& check, const std::vector<Patch>& patches) {
  return std::any_of(patches.begin(), patches.end(),
                     [&](const Patch& patch) { return touches(check, patch.at); });
}

}  // namespace

Image patched(const Image& image, const std::vector<Patch>& patches) {
  Image changed = image;
  for (const Patch& patch : patches) changed.set(patch.at, patch.to);
  return changed;
}

std::vector<Patch> patches_between(const Image& from, const Image& to) {
  std::vector<Patch> patches;
  for (std::size_t i = 0; i < from.size(); ++i) {
    const auto at = static_cast<Address>(i);
    if (from.known(at) && to.known(at) && from[at] != to[at])
      patches.push_back({at, from[at], to[at]});
  }
  return patches;
}

Trouble trouble_in(const Image& image, const Layout& layout) {
  Trouble trouble;
  for (const Check& check : layout.checks) {
    const CheckResult result = evaluate(check, image);
    if (!result.counts || !result.unknown.empty() || result.blank) continue;
    (result.ok() ? trouble.holding : trouble.failing).push_back(&check);
  }
  return trouble;
}

std::vector<const Check*> mended_by(const std::vector<Patch>& patches, const Trouble& trouble,
                                    const Image& image) {
  const Image changed = patched(image, patches);
  std::vector<const Check*> mended;
  for (const Check* check : trouble.failing)
    if (touches_any(*check, patches) && evaluate(*check, changed).ok()) mended.push_back(check);
  if (mended.empty()) return {};
  for (const Check* check : trouble.holding)
    if (touches_any(*check, patches) && !evaluate(*check, changed).ok()) return {};
  return mended;
}

}  // namespace rtcmend
